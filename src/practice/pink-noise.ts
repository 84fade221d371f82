// One period of pink noise with an exact spectrum and a tamed peak, built with the bay's own transform.
import { uniform } from '../base/random.ts';
import { forwardReversed, inverseReversed } from './convolution.ts';

/** Index of bin k in the bit-reversed order of a transform of `size`. */
function reversedIndex(k: number, bits: number): number {
  let reversed = 0;
  for (let bit = 0; bit < bits; bit++) reversed |= ((k >> bit) & 1) << (bits - 1 - bit);
  return reversed;
}

const CREST_LIMIT = 10 ** (12 / 20);

/**
 * One period of pink noise, rms 1, crest factor 12 dB or as near as sixty rounds bring it.
 *
 * Bin k has magnitude 1 / sqrt(f) from `fromHz` to `toHz` and phase 2 pi uniform(seed, k - 1). Each round clips at 0.97
 * of the limit and gives the exact magnitudes back to the phases that come out.
 *
 * @param length  a power of two, 16 .. 4 194 304
 * @throws RangeError  another length
 * Source: M. R. Schroeder 1970 (low-peak signals by their phases); IEC 60268-1 (crest factor of programme noise).
 */
export function pinkPeriod(seed: number, length: number, rateHz: number, fromHz: number, toHz: number): Float64Array {
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
  for (let round = 0; round < 60 && peakOf(re) > CREST_LIMIT; round++) {
    const clip = 0.97 * CREST_LIMIT;
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

function restore(
  re: Float64Array,
  im: Float64Array,
  place: Int32Array,
  magnitudes: Float64Array,
  first: number,
  last: number,
): void {
  const phases: [number, number][] = [];
  for (let k = first; k <= last; k++) {
    const r = re[place[k]];
    const i = im[place[k]];
    const size = Math.hypot(r, i) || 1;
    phases.push([r / size, i / size]);
  }
  re.fill(0);
  im.fill(0);
  for (let k = first; k <= last; k++) {
    const [c, s] = phases[k - first];
    setBin(re, im, place, re.length, k, magnitudes[k] * c, magnitudes[k] * s);
  }
}
