// Shelf slope S and cookbook q: two words for the same knee.
import { assertRange } from '../../base/assert.ts';
import { amplitudeFromDb } from '../../base/decibel.ts';

/**
 * Cookbook q of a shelf of slope `slope`; its inverse is `shelfSlope`.
 *
 * q = 1 / sqrt((A + 1/A)(1/S - 1) + 2) with A = 10^(gainDb/40); S = 1 is the steepest shelf without overshoot, at any
 * gain q 0.7071.
 *
 * @param slope   0.001 and up, as far as the root exists: a little above 1, less so the larger the gain
 * @param gainDb  -60 .. 60
 * @throws RangeError  a slope outside its range or too steep for the gain
 * Source: W3C Note "Audio EQ Cookbook", 2021.
 */
export function shelfQ(slope: number, gainDb: number): number {
  assertRange('slope', slope, 0.001, 100);
  assertRange('gainDb', gainDb, -60, 60);
  const a = amplitudeFromDb(gainDb / 2);
  const squared = (a + 1 / a) * (1 / slope - 1) + 2;
  if (!(squared > 1e-6)) {
    throw new RangeError(`slope must be below ${1 / (1 - 2 / (a + 1 / a))} at ${gainDb} dB, got ${slope}`);
  }
  return 1 / Math.sqrt(squared);
}

/**
 * Slope S of a shelf of cookbook q; its inverse is `shelfQ`.
 *
 * @param q       0.01 .. 1000
 * @param gainDb  -60 .. 60
 * @throws RangeError  an argument outside its range
 */
export function shelfSlope(q: number, gainDb: number): number {
  assertRange('q', q, 0.01, 1000);
  assertRange('gainDb', gainDb, -60, 60);
  const a = amplitudeFromDb(gainDb / 2);
  return 1 / ((1 / (q * q) - 2) / (a + 1 / a) + 1);
}
