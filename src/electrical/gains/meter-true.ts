// What a slow meter would read if it were a quick one.
import { calculation } from '../../base/calculation.ts';
import { number } from '../../base/calculation-inputs.ts';
import { success } from '../../base/result.ts';

/** Above this share of its corner a meter errs by more than 16 %. */
const usableShare = 0.65;

/** Reading of a meter over the true value: a first-order roll-off, 1 / sqrt(1 + (f / corner)^2). */
export function meterShare(freqHz: number, meterHz: number): number {
  return 1 / Math.hypot(1, freqHz / meterHz);
}

/**
 * True volts behind a reading.
 *
 * @param readVolts 0 or more; @param freqHz above 0; @param meterHz above 0: where the meter reads 3 dB low
 * @returns `errorDb` 0 or below; `usable` up to 0.65 of the corner
 * Source: first-order low-pass; an assumption about cheap meters that a known tone checks.
 */
export function meterTrue(given: { readVolts: number; freqHz: number; meterHz: number }): {
  trueVolts: number;
  errorDb: number;
  usable: boolean;
} {
  const { readVolts, freqHz, meterHz } = given;
  const share = meterShare(freqHz, meterHz);
  return {
    trueVolts: readVolts / share,
    errorDb: 20 * Math.log10(share),
    usable: freqHz <= meterHz * usableShare * (1 + 1e-9),
  };
}

export const meterTrueCalculation = calculation({
  name: 'meterTrue',
  about: 'true volts behind the reading of a slow meter',
  inputs: {
    readVolts: number('V', { min: 0 }),
    freqHz: number('Hz', { above: 0 }),
    meterHz: number('Hz', { above: 0 }),
  },
  answer: (values) => success(meterTrue(values)),
});
