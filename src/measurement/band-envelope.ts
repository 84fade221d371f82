// The envelope of one band of a spectrum on no finer a grid than the band needs: most of a search for chirps is this.
import { fftOfPairs, powerOfTwoFrom, type Spectrum } from '../signals/fft.ts';

/** A band of a transform of `size` samples, and the grid for its envelope. */
export interface BandGrid {
  size: number;
  lowBin: number;
  highBin: number;
  /** Points of the coarse grid, at least two a period of the band's width, and the samples from one to the next. */
  points: number;
  step: number;
}

/** @param lowBin,highBin  1 <= lowBin < highBin < size / 2 */
export function bandGrid(size: number, lowBin: number, highBin: number): BandGrid {
  const points = powerOfTwoFrom(2 * (highBin - lowBin + 1));
  return { size, lowBin, highBin, points, step: size / points };
}

/**
 * Analytic signal of the band on the coarse grid, shifted to frequency 0 and conjugated: its magnitude is the envelope.
 *
 * @param template  spectrum to correlate with; none when null
 * @param work      2 * points numbers, overwritten
 * @returns `points` pairs (re, im), valid until the next transform
 */
export function bandSignal(
  grid: BandGrid,
  spectrum: Spectrum,
  template: Spectrum | null,
  work: Float64Array,
): Float64Array {
  work.fill(0);
  const centre = (grid.lowBin + grid.highBin) >> 1;
  if (template) {
    fillProduct(work, spectrum, template, grid.lowBin, centre, 2 * (grid.points - centre), 2 / grid.size);
    fillProduct(work, spectrum, template, centre, grid.highBin + 1, -2 * centre, 2 / grid.size);
  } else {
    fillPlain(work, spectrum, grid.lowBin, centre, 2 * (grid.points - centre), 2 / grid.size);
    fillPlain(work, spectrum, centre, grid.highBin + 1, -2 * centre, 2 / grid.size);
  }
  return fftOfPairs(work);
}

function fillPlain(
  work: Float64Array,
  { re, im }: Spectrum,
  from: number,
  to: number,
  shift: number,
  scale: number,
): void {
  for (let k = from; k < to; k++) {
    work[2 * k + shift] = scale * re[k];
    work[2 * k + shift + 1] = -scale * im[k];
  }
}

function fillProduct(
  work: Float64Array,
  { re, im }: Spectrum,
  template: Spectrum,
  from: number,
  to: number,
  shift: number,
  scale: number,
): void {
  const tr = template.re;
  const ti = template.im;
  for (let k = from; k < to; k++) {
    work[2 * k + shift] = scale * (re[k] * tr[k] + im[k] * ti[k]);
    work[2 * k + shift + 1] = scale * (re[k] * ti[k] - im[k] * tr[k]);
  }
}

/** Running energy of a real sound from its analytic signal: `out[m]` is the sum over the samples before grid point m. */
export function runningEnergy(pairs: Float64Array, step: number, out: Float64Array): void {
  const half = 0.5 * step;
  let sum = 0;
  out[0] = 0;
  for (let m = 0; m + 1 < out.length; m++) {
    sum += half * (pairs[2 * m] * pairs[2 * m] + pairs[2 * m + 1] * pairs[2 * m + 1]);
    out[m + 1] = sum;
  }
}

/** Grid points that `between` needs on either side. */
export const REACH_POINTS = 8;
const KAISER_BETA = 11;
const kernels = new Map<number, Float64Array>();

/** Windowed sinc for each of the `step` places between two grid points, 2 * REACH_POINTS values a place. */
function kernelFor(step: number): Float64Array {
  let kernel = kernels.get(step);
  if (kernel) return kernel;
  const width = 2 * REACH_POINTS;
  kernel = new Float64Array(step * width);
  for (let place = 0; place < step; place++) {
    for (let tap = 0; tap < width; tap++) {
      const t = tap - REACH_POINTS + 1 - place / step;
      const edge = t / REACH_POINTS;
      const window = Math.abs(edge) < 1 ? besselI0(KAISER_BETA * Math.sqrt(1 - edge * edge)) : 0;
      kernel[place * width + tap] =
        (window / besselI0(KAISER_BETA)) * (t === 0 ? 1 : Math.sin(Math.PI * t) / (Math.PI * t));
    }
  }
  kernels.set(step, kernel);
  return kernel;
}

function besselI0(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; k < 60 && term > 1e-17 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

/**
 * Squared envelope at one sample between the grid's points.
 *
 * @param sample  at least REACH_POINTS grid points from either end
 * Accuracy: 1e-5 of the envelope; the band fills half the grid's rate at most (band-envelope.test.ts)
 */
export function squaredEnvelopeAt(pairs: Float64Array, step: number, sample: number): number {
  const point = Math.floor(sample / step);
  const place = sample - point * step;
  let re = 0;
  let im = 0;
  if (place === 0) {
    re = pairs[2 * point];
    im = pairs[2 * point + 1];
  } else {
    const kernel = kernelFor(step);
    const width = 2 * REACH_POINTS;
    let at = 2 * (point - REACH_POINTS + 1);
    for (let tap = place * width; tap < (place + 1) * width; tap++) {
      re += kernel[tap] * pairs[at];
      im += kernel[tap] * pairs[at + 1];
      at += 2;
    }
  }
  return re * re + im * im;
}
