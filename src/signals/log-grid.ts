// The logarithmic frequency grid on which responses are kept, and the way onto it from evenly spaced bins.
import { assertRange } from '../base/assert.ts';

/**
 * Grid frequencies 1000 * 2^(k / pointsPerOctave) between two limits, rising; it always runs through 1 kHz.
 *
 * @param fromHz,toHz      0.001 <= fromHz <= toHz <= 1 000 000; a limit on the grid belongs to it
 * @param pointsPerOctave  whole number 1 .. 960
 * @returns Hz; possibly none
 * @throws RangeError  an argument outside its range
 * @example logGrid({ fromHz: 500, toHz: 2000, pointsPerOctave: 1 }) // 500, 1000, 2000
 */
export function logGrid(limits: { fromHz: number; toHz: number; pointsPerOctave: number }): Float64Array {
  const { fromHz, toHz, pointsPerOctave } = limits;
  assertPointsPerOctave(pointsPerOctave);
  assertRange('toHz', toHz, 1e-3, 1e6);
  assertRange('fromHz', fromHz, 1e-3, toHz);
  const first = Math.ceil(pointsPerOctave * Math.log2(fromHz / 1000) - 1e-9);
  const last = Math.floor(pointsPerOctave * Math.log2(toHz / 1000) + 1e-9);
  const grid = new Float64Array(Math.max(0, last - first + 1));
  for (let i = 0; i < grid.length; i++) grid[i] = 1000 * 2 ** ((first + i) / pointsPerOctave);
  return grid;
}

/** Throws RangeError unless it is a whole number 1 .. 960. */
export function assertPointsPerOctave(pointsPerOctave: number): void {
  if (!(Number.isInteger(pointsPerOctave) && pointsPerOctave >= 1 && pointsPerOctave <= 960)) {
    throw new RangeError(`pointsPerOctave must be a whole number 1..960, got ${pointsPerOctave}`);
  }
}

/**
 * Mean over [low, high], in bins, of the values joined by straight lines.
 *
 * A straight line's mean is its value in the middle, so each piece is one multiplication.
 */
function meanOfLine(values: ArrayLike<number>, low: number, high: number): number {
  if (high - low < 1e-9) return valueAt(values, (low + high) / 2);
  const firstWhole = Math.ceil(low);
  const lastWhole = Math.floor(high);
  if (firstWhole > lastWhole) return valueAt(values, (low + high) / 2);
  let sum = (firstWhole - low) * valueAt(values, (firstWhole + low) / 2);
  for (let k = firstWhole; k < lastWhole; k++) sum += (values[k] + values[k + 1]) / 2;
  sum += (high - lastWhole) * valueAt(values, (high + lastWhole) / 2);
  return sum / (high - low);
}

function valueAt(values: ArrayLike<number>, place: number): number {
  const k = Math.min(Math.floor(place), values.length - 2);
  return values[k] + (place - k) * (values[k + 1] - values[k]);
}

/**
 * Values at evenly spaced bins brought onto a logarithmic grid: each grid point gets the mean over its cell,
 * f 2^(-+1/(2 pointsPerOctave)), of the values joined by straight lines.
 *
 * It interpolates where bins are sparse and averages where they are dense, without a seam. Give it power for levels, or
 * the real and imaginary parts one after the other (delay removed first) for a complex response. Cells are summed
 * directly and not as differences of one running sum: they do not overlap, so it costs the same single pass over the
 * bins, and a curve 120 dB below the rest of the spectrum keeps all its digits.
 *
 * @param values           bin k at k binHz; length >= 2; finite; not changed
 * @param binHz            spacing of the bins, > 0, Hz
 * @param gridHz           0 .. (length - 1) binHz; not changed
 * @param pointsPerOctave  that of the grid, whole number 1 .. 960
 * @returns in the unit of values, as long as gridHz; cells are clipped to the bins there are
 * @throws RangeError  an argument outside its range
 * Accuracy: 1e-8 relative (test/vectors/smoothing.json, written to nine digits)
 * Source: own method; the piecewise linear integral.
 * @example onLogGrid([0, 1, 2, 3, 4], 100, [200], 1) // 2.1213: mean of f / 100 over 141.4 .. 282.8 Hz
 */
export function onLogGrid(
  values: ArrayLike<number>,
  binHz: number,
  gridHz: ArrayLike<number>,
  pointsPerOctave: number,
): Float64Array {
  assertRange('binHz', binHz, 1e-9, 1e9);
  assertPointsPerOctave(pointsPerOctave);
  if (values.length < 2) throw new RangeError(`values must hold 2 bins or more, got ${values.length}`);
  const lastBin = values.length - 1;
  const half = 2 ** (1 / (2 * pointsPerOctave));
  const out = new Float64Array(gridHz.length);
  for (let i = 0; i < out.length; i++) {
    assertRange('gridHz', gridHz[i], 0, lastBin * binHz * (1 + 1e-12));
    const low = Math.min(gridHz[i] / half / binHz, lastBin);
    const high = Math.min((gridHz[i] * half) / binHz, lastBin);
    out[i] = meanOfLine(values, low, high);
    if (!Number.isFinite(out[i])) throw new RangeError(`values must be finite, found otherwise near ${gridHz[i]} Hz`);
  }
  return out;
}
