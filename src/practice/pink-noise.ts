// One period of pink noise with an exact spectrum and a tamed peak, built with the bay's own transform.
import { uniform } from '../base/random.ts';
import { forwardReversed, inverseReversed } from './convolution.ts';

/** Index of bin k in the bit-reversed order of a transform of `size`. */
function reversedIndex(k: number, bits: number): number {
  let reversed = 0;
  for (let bit = 0; bit < bits; bit++) reversed |= ((k >> bit) & 1) << (bits - 1 - bit);
  return reversed;
}

/** Band and peak of a period of noise. */
export interface PinkBand {
  rateHz: number;
  fromHz: number;
  toHz: number;
  /** Peak over rms to stay under, dB; Infinity: as it comes, about 13 dB. */
  crestLimitDb: number;
}

/**
 * One period of pink noise, rms 1, its crest factor under the limit or as near as sixty rounds bring it.
 *
 * Bin k has magnitude 1 / sqrt(f) from `fromHz` to `toHz` and phase 2 pi uniform(seed, k - 1). Each round clips at 0.97
 * of the limit and gives the exact magnitudes back to the phases that come out.
 *
 * @param length  a power of two, 16 .. 4 194 304
 * @throws RangeError  another length
 * Source: M. R. Schroeder 1970 (low-peak signals by their phases); IEC 60268-1 (crest factor of programme noise).
 */
export function pinkPeriod(seed: number, length: number, band: PinkBand): Float64Array {
  const { rateHz, fromHz, toHz } = band;
  const limit = 10 ** (band.crestLimitDb / 20);
  const bits = Math.log2(length);
  if (!Number.isInteger(bits)) throw new RangeError(`length must be a power of two, got ${length}`);
  const first = Math.max(1, Math.ceil((fromHz * length) / rateHz - 1e-9));
  const last = Math.min(length / 2 - 1, Math.floor((toHz * length) / rateHz + 1e-9));
  const place = Int32Array.from({ length }, (_, k) => reversedIndex(k, bits));
  const re = new Float64Array(length);
  const im = new Float64Array(length);
  const magnitudes = new Float64Array(length / 2);
  let power = 0;
  for (let k = first; k <= last; k++) {
    magnitudes[k] = 1 / Math.sqrt(k);
    power += 2 * magnitudes[k] ** 2;
  }
  for (let k = first; k <= last; k++) magnitudes[k] *= length / Math.sqrt(power);
  for (let k = first; k <= last; k++) {
    const angle = 2 * Math.PI * uniform(seed, k - 1);
    setBin(re, im, place, length, k, magnitudes[k] * Math.cos(angle), magnitudes[k] * Math.sin(angle));
  }
  inverseReversed(re, im);
  for (let round = 0; round < 60 && peakOf(re) > limit; round++) {
    const clip = 0.97 * limit;
    for (let n = 0; n < length; n++) re[n] = Math.max(-clip, Math.min(clip, re[n]));
    im.fill(0);
    forwardReversed(re, im);
    restore(re, im, place, magnitudes, first, last);
    inverseReversed(re, im);
  }
  return re;
}

function peakOf(signal: Float64Array): number {
  let most = 0;
  for (let n = 0; n < signal.length; n++) most = Math.max(most, Math.abs(signal[n]));
  return most;
}

function setBin(
  re: Float64Array,
  im: Float64Array,
  place: Int32Array,
  length: number,
  k: number,
  real: number,
  imaginary: number,
): void {
  re[place[k]] = real;
  im[place[k]] = imaginary;
  re[place[length - k]] = real;
  im[place[length - k]] = -imaginary;
}

/** Gives every bin of the band its magnitude back, keeps its phase, and empties the others. */
function restore(
  re: Float64Array,
  im: Float64Array,
  place: Int32Array,
  magnitudes: Float64Array,
  first: number,
  last: number,
): void {
  const length = re.length;
  re[place[0]] = 0;
  im[place[0]] = 0;
  re[place[length / 2]] = 0;
  im[place[length / 2]] = 0;
  for (let k = 1; k < length / 2; k++) {
    const real = re[place[k]];
    const imaginary = im[place[k]];
    const gain = k < first || k > last ? 0 : magnitudes[k] / (Math.hypot(real, imaginary) || 1);
    setBin(re, im, place, length, k, gain * real, gain * imaginary);
  }
}
