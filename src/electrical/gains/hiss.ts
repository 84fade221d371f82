// The hiss that a chain leaves at the ear.
import { calculation } from '../../base/calculation.ts';
import { number, optional } from '../../base/calculation-inputs.ts';
import { success } from '../../base/result.ts';

/** To 20 dB nobody hears it in a parked car, above 30 it wants mending: an assumption. */
export type HissVerdict = 'ok' | 'note' | 'fix';

/** Volts of a sensitivity: 1 W in 8 ohm. */
const sensitivityV = Math.sqrt(8);

/**
 * Noise volts at a driver and their level at the ear.
 *
 * @param procNoiseUv     output noise of the processor; @param ampInputNoiseUv noise at the amplifier's input; 0 or more, not
 *   both 0
 * @param ampGainDb       gain of the amplifier as set
 * @param spl283Db        level of the driver for 2.83 V at 1 m; @param distanceM above 0
 * Source: powers of independent noises add; level falls with distance as from a point.
 */
export function hiss(given: {
  procNoiseUv: number;
  ampInputNoiseUv: number;
  ampGainDb: number;
  spl283Db: number;
  distanceM: number;
}): { noiseUvAtDriver: number; splDb: number; verdict: HissVerdict } {
  const { procNoiseUv, ampInputNoiseUv, ampGainDb, spl283Db, distanceM } = given;
  const noiseUvAtDriver = Math.hypot(procNoiseUv, ampInputNoiseUv) * 10 ** (ampGainDb / 20);
  const splDb = spl283Db + 20 * Math.log10((noiseUvAtDriver * 1e-6) / sensitivityV) - 20 * Math.log10(distanceM);
  return { noiseUvAtDriver, splDb, verdict: splDb <= 20 ? 'ok' : splDb <= 30 ? 'note' : 'fix' };
}

export const hissCalculation = calculation({
  name: 'hiss',
  about: 'noise at a driver and its level at the ear',
  inputs: {
    procNoiseUv: number('uV', { min: 0 }),
    ampInputNoiseUv: number('uV', { min: 0 }),
    ampGainDb: number('dB'),
    spl283Db: number('dB', { max: 194 }),
    distanceM: number('m', { above: 0 }),
    loadOhm: optional(number('ohm', { above: 0 }), 'not needed'),
  },
  answer: (values) => success(hiss(values)),
});
