// Where an amplifier's gain really stands, from two readings.
import { calculation } from '../../base/calculation.ts';
import { number } from '../../base/calculation-inputs.ts';
import { success } from '../../base/result.ts';

/**
 * Gain and sensitivity: input volts that just drive the amplifier to clip, sens = Vin Vclip / Vout.
 *
 * @param inVolts above 0; @param outVolts above 0, well below clip; @param ampClipV above 0
 * Source: the gain is the same at both levels.
 */
export function sensFromReading(given: { inVolts: number; outVolts: number; ampClipV: number }): {
  gainDb: number;
  sensV: number;
} {
  const { inVolts, outVolts, ampClipV } = given;
  return { gainDb: 20 * Math.log10(outVolts / inVolts), sensV: (inVolts * ampClipV) / outVolts };
}

export const sensFromReadingCalculation = calculation({
  name: 'sensFromReading',
  about: 'gain and sensitivity of an amplifier from two readings',
  caution: 'Gain work with drivers unplugged.',
  inputs: {
    inVolts: number('V', { above: 0 }),
    outVolts: number('V', { above: 0 }),
    ampClipV: number('V', { above: 0 }),
  },
  answer: (values) => success(sensFromReading(values)),
});
