// What an eye would pick out of a response: the deepest dip, the highest peak, the frequency nearest to one asked for.
import type { Curve, Distortion, PassBand, Response } from '../../measurement/reading.ts';

export interface CurvePoint {
  fHz: number;
  value: number;
}

/** Octaves over which the curve's own trend is taken. */
const trendOctaves = 1;

/** Index of the grid frequency nearest to `fHz` on a logarithmic scale. */
export function nearestIndex(grid: readonly number[], fHz: number): number {
  let best = 0;
  for (let i = 1; i < grid.length; i++) {
    if (Math.abs(Math.log(grid[i] / fHz)) < Math.abs(Math.log(grid[best] / fHz))) best = i;
  }
  return best;
}

/** The power mean, dB, over `trendOctaves` around an index; null where too little is known. */
function trendAt(fHz: readonly number[], levelDb: Curve, valid: readonly boolean[], index: number): number | null {
  const half = 2 ** (trendOctaves / 2);
  let sum = 0;
  let count = 0;
  for (let i = index; i >= 0 && fHz[i] >= fHz[index] / half; i--) {
    const level = levelDb[i];
    if (level === null || !valid[i]) return null;
    sum += 10 ** (level / 10);
    count++;
  }
  for (let i = index + 1; i < fHz.length && fHz[i] <= fHz[index] * half; i++) {
    const level = levelDb[i];
    if (level === null || !valid[i]) return null;
    sum += 10 ** (level / 10);
    count++;
  }
  return fHz[fHz.length - 1] < fHz[index] * half || fHz[0] > fHz[index] / half ? null : 10 * Math.log10(sum / count);
}

/**
 * Where the response leaves its own trend most, within the band that the driver plays.
 *
 * The trend is the power mean over an octave; a place counts only where that octave lies inside the band and may be
 * relied on, so that the slopes at the band's ends are not taken for dips.
 *
 * @returns the deepest dip or the highest peak by magnitude, dB against the trend; null if none reaches `leastDb`
 * Source: own method, for words beside a picture; no decision rests on it.
 */
export function strongestFeature(response: Response, band: PassBand | undefined, leastDb = 4): CurvePoint | null {
  const { fHz, levelDb, valid } = response;
  const low = (band?.lowHz ?? fHz[0]) * 2 ** (trendOctaves / 2);
  const high = (band?.highHz ?? fHz[fHz.length - 1]) / 2 ** (trendOctaves / 2);
  let best: CurvePoint | null = null;
  for (let i = 0; i < fHz.length; i++) {
    const level = levelDb[i];
    if (fHz[i] < low || fHz[i] > high || level === null) continue;
    const trend = trendAt(fHz, levelDb, valid, i);
    if (trend === null) continue;
    const value = level - trend;
    if (Math.abs(value) >= leastDb && Math.abs(value) > Math.abs(best?.value ?? 0)) best = { fHz: fHz[i], value };
  }
  return best;
}

/** The highest distortion that stands out of the noise, %; null if none does. */
export function highestDistortion({ fHz, thdPct, valid }: Distortion): CurvePoint | null {
  let best: CurvePoint | null = null;
  for (let i = 0; i < fHz.length; i++) {
    const value = thdPct[i];
    if (value !== null && valid[i] && value > (best?.value ?? 0)) best = { fHz: fHz[i], value };
  }
  return best;
}
