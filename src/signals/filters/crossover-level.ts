// The level of a crossover at one frequency, for forecasts: no sample rate, any order.
import { assertRange } from '../../base/assert.ts';

/** A high- or low-pass as a plan names it. */
export interface PlannedFilter {
  type: 'hp' | 'lp';
  family: 'butterworth' | 'linkwitz-riley';
  /** Whole, 1 .. 1000; even for Linkwitz-Riley. */
  order: number;
  /** Corner, above 0: -3 dB for Butterworth, -6 dB for Linkwitz-Riley. */
  hz: number;
}

/**
 * Level of an ideal crossover, dB, never above 0.
 *
 * With x = (corner / f) for a high-pass and its inverse for a low-pass: Butterworth -10 log10(1 + x^(2n)), Linkwitz-Riley
 * -20 log10(1 + x^n).
 *
 * @param fHz above 0
 * @throws RangeError  an order or frequency outside its range, an odd Linkwitz-Riley
 * Source: S. Butterworth, Wireless Engineer 7, 1930, 536-541; S. H. Linkwitz, J. Audio Eng. Soc. 24(1), 1976, 2-8.
 * @example crossoverLevelDb({ type: 'hp', family: 'linkwitz-riley', order: 4, hz: 80 }, 80) // -6.02
 */
export function crossoverLevelDb({ type, family, order, hz }: PlannedFilter, fHz: number): number {
  assertRange('order', order, 1, 1000);
  assertRange('filter hz', hz, Number.MIN_VALUE, Number.MAX_VALUE);
  assertRange('fHz', fHz, Number.MIN_VALUE, Number.MAX_VALUE);
  if (family === 'linkwitz-riley' && order % 2 !== 0) throw new RangeError(`order must be even, got ${order}`);
  const exponent = (type === 'hp' ? 1 : -1) * (Math.log(hz) - Math.log(fHz)) * order;
  const scale = family === 'butterworth' ? 2 : 1;
  // log(1 + e^a) without overflow, so that a filter far from its corner still has a level.
  const a = exponent * scale;
  const grown = a > 0 ? a + Math.log1p(Math.exp(-a)) : Math.log1p(Math.exp(a));
  return ((family === 'butterworth' ? -10 : -20) * grown) / Math.LN10;
}
