// Which filter a fall comes from: family, order and corner that fit it best.
import { CROSSOVER_ORDERS, type Crossover, type PassKind } from '../../signals/filters/crossover.ts';
import { driverLevelDb, plannedLevelDb } from './channel-fit.ts';
import type { NearPlaceReading } from './read-places.ts';

export interface FittedEdge {
  family: 'butterworth' | 'linkwitz-riley';
  order: number;
  fHz: number;
  /** Root mean square of what the fit leaves, dB. */
  residualDb: number;
}

/** Least fall that must be seen, dB, and points that must show it. */
const LEAST_FALL_DB = 8;
const LEAST_POINTS = 8;
const CORNER_STEPS_PER_OCTAVE = 24;
const CORNER_OCTAVES = 1;
/** Filters that fit within this much of the best are not told apart, dB of residual. */
const SAME_DB = 0.4;
const STEEPEST_ORDER = 8;

function fitted(
  fHz: readonly number[],
  levelDb: readonly number[],
  driver: { resonanceHz: number; upperHz: number },
  edge: Crossover,
  pass: PassKind,
): number {
  const filter = plannedLevelDb(
    pass === 'high-pass' ? { highPass: edge, lowPass: null } : { highPass: null, lowPass: edge },
    fHz,
  );
  const left = levelDb.map((level, k) => level - filter[k] - driverLevelDb(fHz[k], driver.resonanceHz, driver.upperHz));
  const mean = left.reduce((sum, value) => sum + value, 0) / left.length;
  return Math.sqrt(left.reduce((sum, value) => sum + (value - mean) ** 2, 0) / left.length);
}

/**
 * Family, order and corner of one edge.
 *
 * @param planned  preferred where it fits within 0.4 dB of the best
 * @returns null where the driver's own fall begins before the filter's, or less than 8 dB of it can be seen
 */
export function fittedEdge(
  { own, fits }: NearPlaceReading,
  pass: PassKind,
  planned: Crossover | null,
): FittedEdge | null {
  const points = own.points.filter(({ kind }) => kind === 'own');
  const best = fits.reduce((a, b) => (!a || (b && b.cost < a.cost) ? b : a), null);
  if (!best || points.length < 2 * LEAST_POINTS) return null;
  const sorted = points.map(({ levelDb }) => levelDb).sort((a, b) => a - b);
  const middleDb = sorted[Math.floor(sorted.length * 0.6)];
  const low = pass === 'high-pass';
  // From the band's middle outwards on the side of this edge.
  const centre = Math.sqrt(points[0].fHz * points[points.length - 1].fHz);
  const half = points.filter(({ fHz }) => (low ? fHz <= centre : fHz >= centre));
  const falls = half.filter(({ levelDb }) => levelDb < middleDb - LEAST_FALL_DB / 2);
  const deepest = Math.max(0, ...half.map(({ levelDb }) => middleDb - levelDb));
  if (deepest < LEAST_FALL_DB || falls.length < 2 || half.length < LEAST_POINTS) return null;
  const corner = half.reduce((a, b) =>
    Math.abs(b.levelDb - middleDb + 4.5) < Math.abs(a.levelDb - middleDb + 4.5) ? b : a,
  ).fHz;
  if (low ? best.resonanceHz > 1.1 * corner : best.upperHz < 0.9 * corner) return null;
  const fHz = half.map((point) => point.fHz);
  const levelDb = half.map((point) => point.levelDb);
  const all: FittedEdge[] = [];
  for (const family of ['butterworth', 'linkwitz-riley'] as const) {
    for (const order of CROSSOVER_ORDERS[family]) {
      if (order > STEEPEST_ORDER) continue;
      let nearest: FittedEdge | null = null;
      for (let step = -CORNER_STEPS_PER_OCTAVE; step <= CORNER_STEPS_PER_OCTAVE; step++) {
        const at = corner * 2 ** ((CORNER_OCTAVES * step) / CORNER_STEPS_PER_OCTAVE);
        const residualDb = fitted(fHz, levelDb, best, { family, order, fHz: at }, pass);
        if (!nearest || residualDb < nearest.residualDb) nearest = { family, order, fHz: at, residualDb };
      }
      if (nearest) all.push(nearest);
    }
  }
  const least = all.reduce((a, b) => (b.residualDb < a.residualDb ? b : a));
  const meant = all.find(({ family, order }) => family === planned?.family && order === planned.order);
  return meant && meant.residualDb < least.residualDb + SAME_DB ? meant : least;
}
