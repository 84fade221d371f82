// Discrete Fourier transforms in double precision: any length, fastest at powers of two.
import { lastRadix2, lastRadix4, radix8 } from './fft-passes.ts';
import { quarterTurns } from './quarter-turns.ts';

/** Non-negative half of the spectrum of a real signal: `floor(size / 2) + 1` bins. */
export interface Spectrum {
  re: Float64Array;
  im: Float64Array;
}

/** Smallest power of two that is at least `length` (>= 1). */
export function powerOfTwoFrom(length: number): number {
  let size = 1;
  while (size < length) size *= 2;
  return size;
}

const isPowerOfTwo = (size: number): boolean => size >= 1 && Number.isInteger(Math.log2(size));

/**
 * Complex transform in place: X[k] = sum x[n] exp(-j 2 pi k n / N).
 *
 * Powers of two go by Stockham's autosort in radix 8, other lengths by Bluestein's chirp.
 *
 * @param re,im  length N >= 1, overwritten with the spectrum
 * Accuracy: largest error about 5e-16 of the largest bin (fft.test.ts)
 * Source: C. Van Loan, Computational Frameworks for the FFT, SIAM 1992, sections 1.7 and 4.2.
 */
export function complexFft(re: Float64Array, im: Float64Array): void {
  const size = re.length;
  if (im.length !== size) throw new RangeError(`im must be as long as re (${size}), got ${im.length}`);
  if (size <= 1) return;
  const scratch = scratchFor(size);
  interleave(re, im, scratch.one);
  separate(transformed(scratch.one, size, scratch), re, im);
}

/**
 * The same for complex numbers stored as pairs (re, im): no copies are made, for loops in which that counts.
 *
 * @param pairs  length 2 N, N >= 1; not changed
 * @returns length 2 N; belongs to this module and holds until the next transform of any kind begins
 */
export function fftOfPairs(pairs: Float64Array): Float64Array {
  const size = pairs.length / 2;
  return transformed(pairs, size, scratchFor(size));
}

/** Inverse of `complexFft`, in place, scaled by 1/N. */
export function inverseComplexFft(re: Float64Array, im: Float64Array): void {
  complexFft(im, re);
  const scale = 1 / re.length;
  multiply(re, scale);
  multiply(im, scale);
}

/**
 * Spectrum of a real signal, zero-padded (or cut) to `size`.
 *
 * @param signal  real samples; not changed
 * @param size    transform length N >= 1; the signal's own length when absent
 * @param into    arrays of the right length to write to instead of new ones
 * @returns bins 0 .. floor(N / 2), in the signal's unit times samples
 */
export function realFft(signal: ArrayLike<number>, size: number = signal.length, into?: Spectrum): Spectrum {
  if (!(Number.isInteger(size) && size >= 1)) throw new RangeError(`size must be a whole number >= 1, got ${size}`);
  const bins = Math.floor(size / 2) + 1;
  const re = into?.re ?? new Float64Array(bins);
  const im = into?.im ?? new Float64Array(bins);
  if (size % 2 === 1) {
    const scratch = scratchFor(size);
    spread(signal, size, scratch.one);
    const pairs = transformed(scratch.one, size, scratch);
    for (let k = 0; k < bins; k++) {
      re[k] = pairs[2 * k];
      im[k] = pairs[2 * k + 1];
    }
    return { re, im };
  }
  // Even samples are taken as real parts, odd ones as imaginary parts of a transform of half the length: as they lie.
  const half = size / 2;
  const scratch = scratchFor(half);
  let pairs = signal;
  if (!(signal instanceof Float64Array && signal.length >= size)) {
    copyPadded(signal, size, scratch.one);
    pairs = scratch.one;
  }
  unfold(transformed(pairs as Float64Array, half, scratch), quarterTurns(size), re, im);
  return { re, im };
}

/**
 * Real signal of `size` samples from its half spectrum; inverse of `realFft`.
 *
 * The imaginary parts at 0 Hz and (even sizes) at half the rate are taken as 0.
 */
export function inverseRealFft(re: Float64Array, im: Float64Array, size: number): Float64Array {
  const bins = Math.floor(size / 2) + 1;
  if (re.length !== bins || im.length !== bins) {
    throw new RangeError(`a signal of ${size} samples has ${bins} bins, got ${re.length} and ${im.length}`);
  }
  const out = new Float64Array(size);
  if (size % 2 === 1) {
    const scratch = scratchFor(size);
    mirrorConjugate(re, im, size, scratch.one);
    const pairs = transformed(scratch.one, size, scratch);
    for (let n = 0; n < size; n++) out[n] = pairs[2 * n] / size;
    return out;
  }
  const half = size / 2;
  const scratch = scratchFor(half);
  foldConjugate(re, im, quarterTurns(size), scratch.one);
  const pairs = transformed(scratch.one, half, scratch);
  for (let n = 0; n < size; n += 2) {
    out[n] = pairs[n];
    out[n + 1] = -pairs[n + 1];
  }
  return out;
}

/**
 * Transform of `size` complex numbers given as pairs (re, im).
 *
 * @param pairs    length 2 * size or more; not changed unless it is part of the scratch
 * @param scratch  `scratchFor(size)`
 * @returns the spectrum as pairs; in the scratch or in `pairs`, so to be used up before the next transform
 */
function transformed(pairs: Float64Array, size: number, scratch: Scratch): Float64Array {
  if (!isPowerOfTwo(size)) return bluestein(pairs, size);
  const { one, two } = scratch;
  const turns = quarterTurns(size);
  let from = pairs;
  let to = pairs === two ? one : two;
  let length = size;
  for (; length >= 8; length /= 8) {
    radix8(from, to, length, size / length, turns);
    from = to;
    to = from === one ? two : one;
  }
  if (length === 1) return from;
  if (length === 4) lastRadix4(from, to, size / 4);
  else lastRadix2(from, to, size / 2);
  return to;
}

/** Any length as a convolution with a chirp: two transforms of a power of two, and a third for the chirp itself. */
function bluestein(pairs: Float64Array, size: number): Float64Array {
  const padded = powerOfTwoFrom(2 * size - 1);
  const chirp = new Float64Array(2 * size);
  for (let n = 0; n < size; n++) {
    // n^2 modulo 2N keeps the angle small and exact.
    const angle = (Math.PI * ((n * n) % (2 * size))) / size;
    chirp[2 * n] = Math.cos(angle);
    chirp[2 * n + 1] = -Math.sin(angle);
  }
  const turned = new Float64Array(2 * padded);
  const answer = new Float64Array(2 * padded);
  for (let n = 0; n < size; n++) {
    const [c, s] = [chirp[2 * n], chirp[2 * n + 1]];
    turned[2 * n] = pairs[2 * n] * c - pairs[2 * n + 1] * s;
    turned[2 * n + 1] = pairs[2 * n] * s + pairs[2 * n + 1] * c;
    answer[2 * n] = c;
    answer[2 * n + 1] = -s;
    if (n === 0) continue;
    answer[2 * (padded - n)] = c;
    answer[2 * (padded - n) + 1] = -s;
  }
  const scratch = scratchFor(padded);
  const filter = transformed(answer, padded, scratch).slice();
  const spectrum = transformed(turned, padded, scratch);
  // The conjugate goes in and comes out, so that a forward transform does for the inverse.
  const product = answer;
  for (let k = 0; k < 2 * padded; k += 2) {
    product[k] = spectrum[k] * filter[k] - spectrum[k + 1] * filter[k + 1];
    product[k + 1] = -(spectrum[k] * filter[k + 1] + spectrum[k + 1] * filter[k]);
  }
  const convolved = transformed(product, padded, scratch);
  for (let k = 0; k < size; k++) {
    const r = convolved[2 * k] / padded;
    const i = -convolved[2 * k + 1] / padded;
    turned[2 * k] = r * chirp[2 * k] - i * chirp[2 * k + 1];
    turned[2 * k + 1] = r * chirp[2 * k + 1] + i * chirp[2 * k];
  }
  return turned;
}

function multiply(values: Float64Array, factor: number): void {
  for (let i = 0; i < values.length; i++) values[i] *= factor;
}

function interleave(re: Float64Array, im: Float64Array, pairs: Float64Array): void {
  for (let k = 0; k < re.length; k++) {
    pairs[2 * k] = re[k];
    pairs[2 * k + 1] = im[k];
  }
}

function separate(pairs: Float64Array, re: Float64Array, im: Float64Array): void {
  for (let k = 0; k < re.length; k++) {
    re[k] = pairs[2 * k];
    im[k] = pairs[2 * k + 1];
  }
}

function copyPadded(signal: ArrayLike<number>, size: number, into: Float64Array): void {
  const used = Math.min(signal.length, size);
  if (signal instanceof Float64Array) into.set(signal.subarray(0, used));
  else for (let n = 0; n < used; n++) into[n] = signal[n];
  into.fill(0, used, size);
}

/** A real signal as complex numbers. */
function spread(signal: ArrayLike<number>, size: number, pairs: Float64Array): void {
  const used = Math.min(signal.length, size);
  pairs.fill(0, 0, 2 * size);
  for (let n = 0; n < used; n++) pairs[2 * n] = signal[n];
}

/** The whole spectrum of a real signal of odd length, conjugated. */
function mirrorConjugate(re: Float64Array, im: Float64Array, size: number, pairs: Float64Array): void {
  pairs[0] = re[0];
  pairs[1] = 0;
  for (let k = 1; k < re.length; k++) {
    pairs[2 * k] = re[k];
    pairs[2 * k + 1] = -im[k];
    pairs[2 * (size - k)] = re[k];
    pairs[2 * (size - k) + 1] = im[k];
  }
}

/** The spectrum of a real signal from that of its samples taken in pairs; bins k and half - k at once. */
function unfold(pairs: Float64Array, turns: Float64Array, re: Float64Array, im: Float64Array): void {
  const half = re.length - 1;
  re[0] = pairs[0] + pairs[1];
  im[0] = 0;
  re[half] = pairs[0] - pairs[1];
  im[half] = 0;
  for (let k = 1; 2 * k <= half; k++) {
    const a = 2 * k;
    const b = 2 * (half - k);
    const evenRe = 0.5 * (pairs[a] + pairs[b]);
    const evenIm = 0.5 * (pairs[a + 1] - pairs[b + 1]);
    const oddRe = 0.5 * (pairs[a + 1] + pairs[b + 1]);
    const oddIm = 0.5 * (pairs[b] - pairs[a]);
    const c = turns[a];
    const s = turns[a + 1];
    const turnedRe = oddRe * c + oddIm * s;
    const turnedIm = oddIm * c - oddRe * s;
    re[k] = evenRe + turnedRe;
    im[k] = evenIm + turnedIm;
    re[half - k] = evenRe - turnedRe;
    im[half - k] = turnedIm - evenIm;
  }
}

/** The way back: conjugated, because a forward transform follows, and scaled. */
function foldConjugate(re: Float64Array, im: Float64Array, turns: Float64Array, pairs: Float64Array): void {
  const half = re.length - 1;
  const scale = 0.5 / half;
  pairs[0] = scale * (re[0] + re[half]);
  pairs[1] = scale * (re[half] - re[0]);
  for (let k = 1; 2 * k <= half; k++) {
    const j = half - k;
    const evenRe = scale * (re[k] + re[j]);
    const evenIm = scale * (im[k] - im[j]);
    const lessRe = scale * (re[k] - re[j]);
    const lessIm = scale * (im[k] + im[j]);
    const c = turns[2 * k];
    const s = turns[2 * k + 1];
    const oddRe = lessRe * c - lessIm * s;
    const oddIm = lessRe * s + lessIm * c;
    pairs[2 * k] = evenRe - oddIm;
    pairs[2 * k + 1] = -evenIm - oddRe;
    pairs[2 * j] = evenRe + oddIm;
    pairs[2 * j + 1] = evenIm - oddRe;
  }
}

interface Scratch {
  one: Float64Array;
  two: Float64Array;
}

/** Complex numbers up to which the scratch is kept; beyond, 64 MB and more would stay taken for good. */
const LARGEST_KEPT = 1 << 21;
/** Distance between the two arrays beyond a power of two: at like places in a page of memory they would evict each other. */
const STAGGER = 200;

let pool = new Float64Array(0);
const scratches = new Map<number, Scratch>();

/** Two arrays of `size` pairs. All sizes share one pool, so a transform ends before the next begins. */
function scratchFor(size: number): Scratch {
  const known = scratches.get(size);
  if (known) return known;
  const needed = 4 * size + STAGGER;
  let room = pool;
  if (needed > pool.length) {
    room = new Float64Array(needed);
    if (size <= LARGEST_KEPT) {
      pool = room;
      scratches.clear();
    }
  }
  const scratch = { one: room.subarray(0, 2 * size), two: room.subarray(2 * size + STAGGER, needed) };
  if (room === pool) scratches.set(size, scratch);
  return scratch;
}
