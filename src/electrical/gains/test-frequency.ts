// The tone to set a channel's gain with.
import { calculation } from '../../base/calculation.ts';
import { number } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';
import { meterShare } from './meter-true.ts';

/** How far inside both ends of its band a tone must lie, as a ratio. */
const bandMargin = 1.4;

/**
 * The middle of the channel's band (its geometric mean), or a third of the meter's corner where that is lower.
 *
 * @param lowHz above 0, below `highHz`; @param meterHz above 0
 * @returns `inPassband` false: measure through a full-range setting with the driver unplugged; `meterErrorPct` 0 or below;
 *   refused as `contradiction` where the band has no width
 */
export function testFrequency(given: {
  lowHz: number;
  highHz: number;
  meterHz: number;
}): Result<{ freqHz: number; inPassband: boolean; meterErrorPct: number }> {
  const { lowHz, highHz, meterHz } = given;
  if (lowHz >= highHz) {
    return refused(
      'contradiction',
      'highHz',
      `highHz ${highHz} is not above lowHz ${lowHz}.`,
      'Give the band low to high.',
    );
  }
  const freqHz = Math.min(Math.sqrt(lowHz) * Math.sqrt(highHz), meterHz / 3);
  const inPassband = lowHz * bandMargin <= freqHz * (1 + 1e-9) && freqHz <= (highHz / bandMargin) * (1 + 1e-9);
  return success({ freqHz, inPassband, meterErrorPct: 100 * (meterShare(freqHz, meterHz) - 1) });
}

export const testFrequencyCalculation = calculation({
  name: 'testFrequency',
  about: "the tone to set a channel's gain with, for its band and the meter at hand",
  caution: 'Where it is not in the pass band, measure with the driver unplugged, and restore the filter.',
  inputs: {
    lowHz: number('Hz', { above: 0 }),
    highHz: number('Hz', { above: 0 }),
    meterHz: number('Hz', { above: 0 }),
  },
  answer: testFrequency,
});
