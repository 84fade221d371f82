// Signal over noise at the end of a chain of devices.
import { calculation } from '../../base/calculation.ts';
import { list, number, optional, orElse, record } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';

/** A device: gain, noise that it adds before and after it (0 or more), and the output at which it clips (above 0). */
export interface ChainStage {
  gainDb: number;
  inputNoiseUv: number;
  outputNoiseUv: number;
  maxV?: number | undefined;
}

/**
 * Signal and noise at the end; each noise passes through the gains after it.
 *
 * @param sourceV above 0; @param stages one or more
 * @returns `snrDb` null where no stage has noise; refused as `contradiction` where a stage is driven over its `maxV`
 * Source: powers of independent noises add.
 */
export function chainSnr(
  sourceV: number,
  stages: readonly ChainStage[],
): Result<{ signalV: number; noiseUv: number; snrDb: number | null }> {
  let signalV = sourceV;
  let noiseUv = 0;
  for (const [index, { gainDb, inputNoiseUv, outputNoiseUv, maxV }] of stages.entries()) {
    const gain = 10 ** (gainDb / 20);
    signalV *= gain;
    noiseUv = Math.hypot(Math.hypot(noiseUv, inputNoiseUv) * gain, outputNoiseUv);
    if (maxV !== undefined && signalV > maxV * (1 + 1e-9)) {
      const message = `Stage ${index + 1} would give ${signalV.toPrecision(3)} V and clips at ${maxV} V.`;
      return refused('contradiction', `stages[${index}].maxV`, message, 'Take gain away at this stage or before it.');
    }
  }
  const snrDb = noiseUv === 0 ? null : 20 * Math.log10((signalV / noiseUv) * 1e6);
  return success({ signalV, noiseUv, snrDb });
}

export const chainSnrCalculation = calculation({
  name: 'chainSnr',
  about: 'signal, noise and their ratio at the end of a chain',
  inputs: {
    sourceV: number('V', { above: 0 }),
    stages: list(
      record({
        gainDb: number('dB'),
        inputNoiseUv: orElse(number('uV', { min: 0 }), 0),
        outputNoiseUv: orElse(number('uV', { min: 0 }), 0),
        maxV: optional(number('V', { above: 0 })),
      }),
    ),
  },
  answer: ({ sourceV, stages }) => chainSnr(sourceV, stages),
});
