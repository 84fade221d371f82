// Smoothing over a fraction of an octave on a logarithmic grid: power, decibels or complex, each its own meaning.
import { assertRange } from '../base/assert.ts';
import type { ComplexResponse } from './filters/sections.ts';
import { assertPointsPerOctave } from './log-grid.ts';

/** How wide: the window spans `widthOctaves`, one number or one per grid point. */
export interface SmoothingWindow {
  /** Of the grid the values stand on, whole number 1 .. 960. */
  pointsPerOctave: number;
  /** Full width, 0 .. 10 octaves: 1/12, 1/3 ... At a cell's width or less nothing changes. */
  widthOctaves: number | ArrayLike<number>;
}

/**
 * Running means of `values`, each constant over its cell, through windows with fractional ends clipped to the grid.
 *
 * One running sum makes it O(n) at any width. The sum is kept in two doubles (Knuth's exact addition), because in
 * differences of one double a tweeter's bass, 150 dB below its treble, would drown in rounding. Good to 200 dB below
 * the sum; what lies 300 dB below drowns still, and the clamp to the range of the values keeps that from leaving as a
 * negative power.
 */
function windowMeans(values: ArrayLike<number>, window: SmoothingWindow): Float64Array {
  const { pointsPerOctave, widthOctaves } = window;
  const n = values.length;
  assertPointsPerOctave(pointsPerOctave);
  if (typeof widthOctaves !== 'number' && widthOctaves.length !== n) {
    throw new RangeError(`widthOctaves must be as long as the values (${n}), got ${widthOctaves.length}`);
  }
  const high = new Float64Array(n + 1);
  const low = new Float64Array(n + 1);
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < n; k++) {
    least = Math.min(least, values[k]);
    most = Math.max(most, values[k]);
    const a = high[k];
    const b = values[k];
    const sum = a + b;
    const part = sum - a;
    high[k + 1] = sum;
    low[k + 1] = low[k] + (a - (sum - part) + (b - part));
  }
  if (!Number.isFinite(high[n])) throw new RangeError('values must be finite, and their sum too');
  const out = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const width = typeof widthOctaves === 'number' ? widthOctaves : widthOctaves[k];
    assertRange('widthOctaves', width, 0, 10);
    const half = (width * pointsPerOctave) / 2;
    if (half <= 0.5) {
      out[k] = values[k];
      continue;
    }
    const from = Math.max(0, k + 0.5 - half);
    const to = Math.min(n, k + 0.5 + half);
    const first = Math.ceil(from);
    const last = Math.floor(to);
    let sum = high[last] - high[first] + (low[last] - low[first]);
    if (first > from) sum += (first - from) * values[first - 1];
    if (to > last) sum += (to - last) * values[last];
    out[k] = Math.min(most, Math.max(least, sum / (to - from)));
  }
  return out;
}

/**
 * Power smoothed over a fraction of an octave: what band levels and the ear go by.
 *
 * @param power   >= 0, finite, on a grid of `pointsPerOctave`; not changed
 * @param window  width one number, or one per point for a width that changes with frequency
 * @returns in the unit of power, as long as it; at the ends the mean over what is left of the window
 * @throws RangeError  an argument outside its range
 * Accuracy: 1e-7 dB (test/vectors/smoothing.json)
 * Source: own method; rectangular window over cells of constant value.
 * @example smoothedPower([0, 3, 0], { pointsPerOctave: 3, widthOctaves: 1 }) // 1.5, 1, 1.5
 */
export function smoothedPower(power: ArrayLike<number>, window: SmoothingWindow): Float64Array {
  return windowMeans(power, window);
}

/**
 * Levels smoothed by their power: the usual smoothing of a magnitude response.
 *
 * @param levelDb  -1500 .. 1500 dB (10 log of power); not changed
 * @returns dB, as long as levelDb; further as `smoothedPower`
 */
export function smoothedLevelDb(levelDb: ArrayLike<number>, window: SmoothingWindow): Float64Array {
  const out = new Float64Array(levelDb.length);
  for (let k = 0; k < out.length; k++) {
    assertRange('levelDb', levelDb[k], -1500, 1500);
    out[k] = 10 ** (levelDb[k] / 10);
  }
  const means = windowMeans(out, window);
  for (let k = 0; k < means.length; k++) means[k] = 10 * Math.log10(means[k]);
  return means;
}

/**
 * Decibels averaged as numbers. Lower than power smoothing by up to several dB in combed responses: for differences
 * and errors in dB, never for levels.
 *
 * @param levelDb  finite; not changed
 * @returns dB, as long as levelDb; further as `smoothedPower`
 */
export function smoothedDbMean(levelDb: ArrayLike<number>, window: SmoothingWindow): Float64Array {
  return windowMeans(levelDb, window);
}

/**
 * A complex response averaged as such: late reflections, whose phase turns within the window, average out, so the
 * direct sound remains. Remove the delay first, or the direct sound goes too.
 *
 * @param response  re and im of equal length; not changed
 * @returns re and im, as long; further as `smoothedPower`
 * @throws RangeError  an argument outside its range, lengths that differ
 */
export function smoothedComplex(response: ComplexResponse, window: SmoothingWindow): ComplexResponse {
  if (response.re.length !== response.im.length) {
    throw new RangeError(`re and im must be equally long, got ${response.re.length} and ${response.im.length}`);
  }
  return { re: windowMeans(response.re, window), im: windowMeans(response.im, window) };
}

/**
 * Width of smoothing under which an equaliser's target is compared: 1/12 octave up to 150 Hz, widening in proportion to
 * log frequency to 1/3 octave at 1 kHz and above. In the bass single modes can be treated; higher up only what spans
 * many reflections is the same at both ears.
 *
 * @param fHz  > 0; not changed
 * @returns octaves, as long as fHz: the `widthOctaves` of a window
 * @throws RangeError  a frequency outside 0.001 .. 1 000 000
 * Source: own choice.
 */
export function equaliserSmoothingOctaves(fHz: ArrayLike<number>): Float64Array {
  const span = Math.log(1000 / 150);
  return Float64Array.from(fHz, (f) => {
    assertRange('fHz', f, 1e-3, 1e6);
    const way = Math.min(1, Math.max(0, Math.log(f / 150) / span));
    return 1 / 12 + way * (1 / 3 - 1 / 12);
  });
}
