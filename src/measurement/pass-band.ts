// The pass band a driver really has: where its response falls, and how steeply.
import type { PassBand } from './reading.ts';

/** Corner level re the median inside, dB. */
const CORNER_DB = -6;
/** A dip this wide inside the band does not end it, octaves. */
const WIDEST_DIP_OCTAVES = 0.75;
/** Least fall that a slope may be read from, and the most that is used, dB. */
const LEAST_FALL_DB = 12;
const MOST_FALL_DB = 20;

/**
 * Corners and slopes of a smoothed response.
 *
 * The corners lie where the response is 6 dB under the median of what is between; they and the median are found
 * together by iteration. Slopes are those of the filter shape (see `fallSlope`) that fits the first 12 to 20 dB of the
 * fall, so that a fourth-order fall reads 24 although its first decibels are flatter.
 *
 * @param fHz      rising, evenly spaced in octaves
 * @param levelDb  third-octave-smoothed level; null where nothing is known
 * @returns a corner is null where the response does not fall within what was measured
 */
export function passBand(fHz: number[], levelDb: (number | null)[]): PassBand {
  const none: PassBand = { lowHz: null, lowSlopeDbPerOctave: null, highHz: null, highSlopeDbPerOctave: null };
  const known = levelDb.flatMap((level, i) => (level === null ? [] : [i]));
  if (known.length < 3) return none;
  const stepOctaves = Math.log2(fHz[known[1]] / fHz[known[0]]);
  const dip = Math.max(1, Math.round(WIDEST_DIP_OCTAVES / stepOctaves));
  const value = (i: number): number => levelDb[i] ?? Number.NEGATIVE_INFINITY;
  let median = Math.max(...known.map(value)) - 3;
  let low = known[0];
  let high = known[known.length - 1];
  let seed = known.reduce((best, i) => (value(i) > value(best) ? i : best), known[0]);
  for (let round = 0; round < 12; round++) {
    const limit = median + CORNER_DB;
    if (value(seed) < limit) seed = known.reduce((best, i) => (value(i) > value(best) ? i : best), known[0]);
    low = reach(seed, -1, limit);
    high = reach(seed, 1, limit);
    const inside = known
      .filter((i) => i >= low && i <= high)
      .map(value)
      .sort((a, b) => a - b);
    const next = inside[inside.length >> 1];
    if (Math.abs(next - median) < 0.01) break;
    median = next;
  }
  const lower = side(low, -1);
  const upper = side(high, 1);
  return {
    lowHz: lower.cornerHz,
    lowSlopeDbPerOctave: lower.slope,
    highHz: upper.cornerHz,
    highSlopeDbPerOctave: upper.slope,
  };

  /** Outermost index on one side that is still above the limit, stepping over dips. */
  function reach(from: number, step: 1 | -1, limit: number): number {
    let last = from;
    for (let i = from; i >= known[0] && i <= known[known.length - 1]; i += step) {
      if (value(i) >= limit) last = i;
      else if (Math.abs(i - last) > dip) break;
    }
    return last;
  }

  function side(edge: number, step: 1 | -1): { cornerHz: number | null; slope: number | null } {
    const outside = edge + step;
    if (levelDb[outside] === null || levelDb[outside] === undefined) return { cornerHz: null, slope: null };
    const limit = median + CORNER_DB;
    const share = (value(edge) - limit) / (value(edge) - value(outside));
    const cornerHz = fHz[edge] * (fHz[outside] / fHz[edge]) ** share;
    const points: { octaves: number; fallDb: number }[] = [];
    let deepest = 0;
    for (let i = outside; levelDb[i] !== null && levelDb[i] !== undefined; i += step) {
      const fallDb = median - value(i);
      // A second hump further out belongs to something else.
      if (fallDb < deepest - 3) break;
      deepest = Math.max(deepest, fallDb);
      if (fallDb > MOST_FALL_DB) break;
      points.push({ octaves: Math.abs(Math.log2(fHz[i] / cornerHz)), fallDb });
    }
    return { cornerHz, slope: deepest >= LEAST_FALL_DB && points.length >= 2 ? fallSlope(points) : null };
  }
}

/**
 * Asymptotic slope of a fall that passes through 6 dB at its corner, dB per octave.
 *
 * Two shapes are fitted and the better kept: two equal cascaded filters (6 dB at their own corner) and a maximally flat
 * one (3 dB there).
 *
 * @param points distance from the -6 dB corner in octaves, and fall under the pass band in dB
 */
function fallSlope(points: { octaves: number; fallDb: number }[]): number {
  let best = { error: Number.POSITIVE_INFINITY, slope: 0 };
  for (let order = 0.8; order <= 10; order += 0.02) {
    let cascaded = 0;
    let flat = 0;
    for (const { octaves, fallDb } of points) {
      const twice = 20 * Math.log10(1 + 2 ** (octaves * order));
      const once = 10 * Math.log10(1 + 3 * 2 ** (2 * octaves * order));
      cascaded += (twice - fallDb) ** 2;
      flat += (once - fallDb) ** 2;
    }
    const error = Math.min(cascaded, flat);
    if (error < best.error) best = { error, slope: 20 * Math.log10(2) * order };
  }
  return best.slope;
}
