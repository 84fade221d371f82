// The loudest step of a source that is still clean.
import { calculation } from '../../base/calculation.ts';
import { list, number, orElse, record } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';

/** One step of the volume: level in dB re 1 V and distortion, 0 or more. */
export interface VolumeStep {
  volume: number;
  dbv: number;
  thdPct: number;
}

export interface CleanCeiling {
  ceilingVolume: number;
  ceilingVolts: number;
  /** Whether the source crossed the limit at all. */
  reached: boolean;
  /** Where it crosses, between two steps; null when it does not. */
  onsetVolts: number | null;
  /** Rise of the first step above the limit; null when there is none. */
  lostStepDb: number | null;
}

/** Distortion that no meter tells from none, percent: the logarithm needs one. */
const leastThdPct = 1e-4;

const voltsOf = (dbv: number) => 10 ** (dbv / 20);

/**
 * From the step of least distortion (noise makes quieter ones look worse) upwards while within the limit.
 *
 * The onset is interpolated in log(THD) against dB.
 *
 * @param steps    one or more, volumes rising
 * @param limitPct above 0; 1 usual, 0.3 strict
 * @returns refused as `contradiction` where volumes do not rise, as `no-solution` where no step is clean
 */
export function cleanCeiling(steps: readonly VolumeStep[], limitPct: number): Result<CleanCeiling> {
  const fallen = steps.findIndex(({ volume }, i) => i > 0 && volume <= steps[i - 1].volume);
  if (fallen >= 0) {
    const message = `Volume ${steps[fallen].volume} comes after ${steps[fallen - 1].volume}.`;
    return refused('contradiction', `steps[${fallen}].volume`, message, 'Give the steps in rising order, each once.');
  }
  const cleanest = steps.reduce((best, { thdPct }, i) => (thdPct < steps[best].thdPct ? i : best), 0);
  if (steps[cleanest].thdPct > limitPct) {
    const message = `No step is below ${limitPct} %: the cleanest has ${steps[cleanest].thdPct} %.`;
    return refused('no-solution', 'steps', message, 'Check the input for overload, or start at a lower volume.');
  }
  let last = cleanest;
  while (last + 1 < steps.length && steps[last + 1].thdPct <= limitPct) last++;
  const ceiling = steps[last];
  const next = steps.at(last + 1);
  return success({
    ceilingVolume: ceiling.volume,
    ceilingVolts: voltsOf(ceiling.dbv),
    reached: next !== undefined,
    onsetVolts: next === undefined ? null : onsetVolts(ceiling, next, limitPct),
    lostStepDb: next === undefined ? null : next.dbv - ceiling.dbv,
  });
}

function onsetVolts(below: VolumeStep, above: VolumeStep, limitPct: number): number {
  const log = (thdPct: number) => Math.log(Math.max(thdPct, Math.min(leastThdPct, limitPct)));
  const share = (log(limitPct) - log(below.thdPct)) / (log(above.thdPct) - log(below.thdPct));
  return voltsOf(below.dbv + share * (above.dbv - below.dbv));
}

export const cleanCeilingCalculation = calculation({
  name: 'cleanCeiling',
  about: 'the loudest clean step of a source, and where distortion sets in',
  caution: 'Read the source electrically, with the drivers unplugged.',
  inputs: {
    steps: list(record({ volume: number(), dbv: number('dBV'), thdPct: number('%', { min: 0 }) })),
    limitPct: orElse(number('%', { above: 0 }), 1),
  },
  answer: ({ steps, limitPct }) => cleanCeiling(steps, limitPct),
});
