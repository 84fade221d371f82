// What an equaliser band of the plan does to the level at one frequency.
import { dbFromPower } from '../base/decibel.ts';

/** As it is dialled in; `q` is the cookbook's: for `peaking` the width lies between the points of half the gain in dB. */
export interface PlannedBand {
  type: 'peaking' | 'low-shelf' | 'high-shelf';
  /** Above 0. */
  fHz: number;
  /** -60 to 60. */
  gainDb: number;
  /** Above 0. */
  q: number;
}

/**
 * Level of one band at `fHz` above 0, dB: the analogue one, which a processor's differs from near half its rate only.
 *
 * Source: R. Bristow-Johnson, Cookbook formulae for audio equalizer biquad filter coefficients, the analogue prototypes.
 * @example bandLevelDb({ type: 'peaking', fHz: 45, gainDb: 6, q: 1 }, 45) // 6
 */
export function bandLevelDb({ type, fHz: centreHz, gainDb, q }: PlannedBand, fHz: number): number {
  const a = 10 ** (gainDb / 40);
  // A low shelf is a high shelf with its frequencies turned over.
  const x = type === 'low-shelf' ? centreHz / fHz : fHz / centreHz;
  const square = x * x;
  if (type === 'peaking') {
    const even = (1 - square) ** 2;
    return dbFromPower((even + square * (a / q) ** 2) / (even + square / (a * q) ** 2));
  }
  const turn = square * (a / q ** 2);
  return dbFromPower((a * a * ((1 - a * square) ** 2 + turn)) / ((a - square) ** 2 + turn));
}

/** Level of all bands together at `fHz`, dB. */
export function bandsLevelDb(bands: readonly PlannedBand[], fHz: number): number {
  return bands.reduce((sum, band) => sum + bandLevelDb(band, fHz), 0);
}
