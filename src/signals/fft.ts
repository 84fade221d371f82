// Discrete Fourier transforms in double precision: any length, fastest at powers of two.

/** Non-negative half of the spectrum of a real signal: `floor(size / 2) + 1` bins. */
export interface Spectrum {
  re: Float64Array;
  im: Float64Array;
}

interface Plan {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  workRe: Float64Array;
  workIm: Float64Array;
}

// Twiddles are taken straight from cos and sin (no recurrence), so the error stays at rounding for any length.
const plans = new Map<number, Plan>();
const LARGEST_KEPT = 1 << 20;

function planFor(size: number): Plan {
  let plan = plans.get(size);
  if (!plan) {
    plan = {
      cos: new Float64Array(size),
      sin: new Float64Array(size),
      workRe: new Float64Array(size),
      workIm: new Float64Array(size),
    };
    fillTwiddles(plan, size);
    if (size <= LARGEST_KEPT) plans.set(size, plan);
  }
  return plan;
}

function fillTwiddles(plan: Plan, size: number): void {
  const { cos, sin } = plan;
  // One eighth of the circle is computed; the rest mirrors it exactly.
  for (let k = 0; k <= size >> 3 || k < Math.min(size, 8); k++) {
    const angle = (2 * Math.PI * k) / size;
    cos[k] = Math.cos(angle);
    sin[k] = Math.sin(angle);
  }
  if (size < 8) return;
  const quarter = size >> 2;
  for (let k = 0; k <= size >> 3; k++) {
    cos[quarter - k] = sin[k];
    sin[quarter - k] = cos[k];
  }
  for (let k = 0; k < quarter; k++) {
    cos[k + quarter] = -sin[k];
    sin[k + quarter] = cos[k];
    cos[k + 2 * quarter] = -cos[k];
    sin[k + 2 * quarter] = -sin[k];
    cos[k + 3 * quarter] = sin[k];
    sin[k + 3 * quarter] = -cos[k];
  }
}

const isPowerOfTwo = (size: number): boolean => size >= 1 && Number.isInteger(Math.log2(size));

/** Smallest power of two that is at least `length` (>= 1). */
export function powerOfTwoFrom(length: number): number {
  let size = 1;
  while (size < length) size *= 2;
  return size;
}

/**
 * Complex transform in place: X[k] = sum x[n] exp(-j 2 pi k n / N).
 *
 * Powers of two go by Stockham's radix-4 autosort, other lengths by Bluestein's chirp.
 *
 * @param re,im  length N >= 1, overwritten with the spectrum
 * Accuracy: largest error about 1e-15 of the largest bin (fft.test.ts)
 * Source: C. Van Loan, Computational Frameworks for the FFT, SIAM 1992, sections 1.7 and 4.2.
 */
export function complexFft(re: Float64Array, im: Float64Array): void {
  const size = re.length;
  if (im.length !== size) throw new RangeError(`im must be as long as re (${size}), got ${im.length}`);
  if (size <= 1) return;
  if (isPowerOfTwo(size)) stockham(re, im, planFor(size));
  else bluestein(re, im);
}

/** Inverse of `complexFft`, in place, scaled by 1/N. */
export function inverseComplexFft(re: Float64Array, im: Float64Array): void {
  complexFft(im, re);
  const scale = 1 / re.length;
  for (let i = 0; i < re.length; i++) {
    re[i] *= scale;
    im[i] *= scale;
  }
}

function stockham(re: Float64Array, im: Float64Array, plan: Plan): void {
  const size = re.length;
  let xr = re;
  let xi = im;
  let yr = plan.workRe;
  let yi = plan.workIm;
  let length = size;
  let stride = 1;
  while (length >= 4) {
    radix4(xr, xi, yr, yi, length, stride, plan);
    [xr, yr] = [yr, xr];
    [xi, yi] = [yi, xi];
    length >>= 2;
    stride <<= 2;
  }
  if (length === 2) {
    for (let q = 0; q < stride; q++) {
      const ar = xr[q];
      const ai = xi[q];
      const br = xr[q + stride];
      const bi = xi[q + stride];
      yr[q] = ar + br;
      yi[q] = ai + bi;
      yr[q + stride] = ar - br;
      yi[q + stride] = ai - bi;
    }
    [xr, yr] = [yr, xr];
    [xi, yi] = [yi, xi];
  }
  if (xr !== re) {
    re.set(xr);
    im.set(xi);
  }
}

function radix4(
  xr: Float64Array,
  xi: Float64Array,
  yr: Float64Array,
  yi: Float64Array,
  length: number,
  stride: number,
  plan: Plan,
): void {
  const { cos, sin } = plan;
  const quarter = length >> 2;
  const jump = stride * quarter;
  for (let p = 0; p < quarter; p++) {
    const k = p * stride;
    const w1r = cos[k];
    const w1i = -sin[k];
    const w2r = cos[2 * k];
    const w2i = -sin[2 * k];
    const w3r = cos[3 * k];
    const w3i = -sin[3 * k];
    const from = stride * p;
    const to = 4 * stride * p;
    for (let q = 0; q < stride; q++) {
      const a = from + q;
      const b = a + jump;
      const c = b + jump;
      const d = c + jump;
      const acr = xr[a] + xr[c];
      const aci = xi[a] + xi[c];
      const amr = xr[a] - xr[c];
      const ami = xi[a] - xi[c];
      const bdr = xr[b] + xr[d];
      const bdi = xi[b] + xi[d];
      const bmr = xr[b] - xr[d];
      const bmi = xi[b] - xi[d];
      const o = to + q;
      yr[o] = acr + bdr;
      yi[o] = aci + bdi;
      const t1r = amr + bmi;
      const t1i = ami - bmr;
      yr[o + stride] = t1r * w1r - t1i * w1i;
      yi[o + stride] = t1r * w1i + t1i * w1r;
      const t2r = acr - bdr;
      const t2i = aci - bdi;
      yr[o + 2 * stride] = t2r * w2r - t2i * w2i;
      yi[o + 2 * stride] = t2r * w2i + t2i * w2r;
      const t3r = amr - bmi;
      const t3i = ami + bmr;
      yr[o + 3 * stride] = t3r * w3r - t3i * w3i;
      yi[o + 3 * stride] = t3r * w3i + t3i * w3r;
    }
  }
}

function bluestein(re: Float64Array, im: Float64Array): void {
  const size = re.length;
  const padded = powerOfTwoFrom(2 * size - 1);
  const chirpRe = new Float64Array(size);
  const chirpIm = new Float64Array(size);
  for (let n = 0; n < size; n++) {
    // n^2 modulo 2N keeps the angle small and exact.
    const angle = (Math.PI * ((n * n) % (2 * size))) / size;
    chirpRe[n] = Math.cos(angle);
    chirpIm[n] = -Math.sin(angle);
  }
  const ar = new Float64Array(padded);
  const ai = new Float64Array(padded);
  const br = new Float64Array(padded);
  const bi = new Float64Array(padded);
  for (let n = 0; n < size; n++) {
    ar[n] = re[n] * chirpRe[n] - im[n] * chirpIm[n];
    ai[n] = re[n] * chirpIm[n] + im[n] * chirpRe[n];
    br[n] = chirpRe[n];
    bi[n] = -chirpIm[n];
    if (n > 0) {
      br[padded - n] = br[n];
      bi[padded - n] = bi[n];
    }
  }
  complexFft(ar, ai);
  complexFft(br, bi);
  for (let k = 0; k < padded; k++) {
    const r = ar[k] * br[k] - ai[k] * bi[k];
    ai[k] = ar[k] * bi[k] + ai[k] * br[k];
    ar[k] = r;
  }
  inverseComplexFft(ar, ai);
  for (let k = 0; k < size; k++) {
    re[k] = ar[k] * chirpRe[k] - ai[k] * chirpIm[k];
    im[k] = ar[k] * chirpIm[k] + ai[k] * chirpRe[k];
  }
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
  const used = Math.min(signal.length, size);
  if (size % 2 === 1) {
    const re = new Float64Array(size);
    const im = new Float64Array(size);
    for (let n = 0; n < used; n++) re[n] = signal[n];
    complexFft(re, im);
    return { re: re.slice(0, bins), im: im.slice(0, bins) };
  }
  // Even samples as the real part, odd ones as the imaginary part of a transform of half the length.
  const half = size / 2;
  const { re: zr, im: zi } = scratchFor(half);
  const pairs = used >> 1;
  for (let n = 0; n < pairs; n++) {
    zr[n] = signal[2 * n];
    zi[n] = signal[2 * n + 1];
  }
  zr.fill(0, pairs);
  zi.fill(0, pairs);
  if (used % 2 === 1) zr[pairs] = signal[used - 1];
  complexFft(zr, zi);
  const re = into?.re ?? new Float64Array(bins);
  const im = into?.im ?? new Float64Array(bins);
  const turn = twiddles(size);
  for (let k = 0; k <= half; k++) {
    const a = k === half ? 0 : k;
    const b = k === 0 ? 0 : half - k;
    const er = 0.5 * (zr[a] + zr[b]);
    const ei = 0.5 * (zi[a] - zi[b]);
    const or = 0.5 * (zi[a] + zi[b]);
    const oi = 0.5 * (zr[b] - zr[a]);
    const c = turn.cos[k];
    const s = -turn.sin[k];
    re[k] = er + or * c - oi * s;
    im[k] = ei + or * s + oi * c;
  }
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
  if (size % 2 === 1) {
    const fr = new Float64Array(size);
    const fi = new Float64Array(size);
    for (let k = 0; k < bins; k++) {
      fr[k] = re[k];
      fi[k] = k === 0 ? 0 : im[k];
      if (k > 0) {
        fr[size - k] = re[k];
        fi[size - k] = -im[k];
      }
    }
    inverseComplexFft(fr, fi);
    return fr;
  }
  const half = size / 2;
  const { re: zr, im: zi } = scratchFor(half);
  const turn = twiddles(size);
  for (let k = 0; k < half; k++) {
    const j = half - k;
    const aI = k === 0 ? 0 : im[k];
    const bI = k === 0 ? 0 : -im[j];
    const er = 0.5 * (re[k] + re[j]);
    const ei = 0.5 * (aI + bI);
    const dr = 0.5 * (re[k] - re[j]);
    const di = 0.5 * (aI - bI);
    const c = turn.cos[k];
    const s = turn.sin[k];
    const or = dr * c - di * s;
    const oi = dr * s + di * c;
    zr[k] = er - oi;
    zi[k] = ei + or;
  }
  inverseComplexFft(zr, zi);
  const out = new Float64Array(size);
  for (let n = 0; n < half; n++) {
    out[2 * n] = zr[n];
    out[2 * n + 1] = zi[n];
  }
  return out;
}

interface Turns {
  cos: Float64Array;
  sin: Float64Array;
}

const halfTurns = new Map<number, Turns>();

/** cos and sin of 2 pi k / size for k = 0 .. size / 2. */
function twiddles(size: number): Turns {
  let table = halfTurns.get(size);
  if (!table) {
    const half = size / 2;
    table = { cos: new Float64Array(half + 1), sin: new Float64Array(half + 1) };
    for (let k = 0; k <= half; k++) {
      table.cos[k] = Math.cos((2 * Math.PI * k) / size);
      table.sin[k] = Math.sin((2 * Math.PI * k) / size);
    }
    if (size <= LARGEST_KEPT) halfTurns.set(size, table);
  }
  return table;
}

const scratches = new Map<number, Spectrum>();

/** Arrays to pack a real signal into; used up before any other transform begins. */
function scratchFor(size: number): Spectrum {
  let scratch = scratches.get(size);
  if (!scratch) {
    scratch = { re: new Float64Array(size), im: new Float64Array(size) };
    if (size <= LARGEST_KEPT / 2) scratches.set(size, scratch);
  }
  return scratch;
}
