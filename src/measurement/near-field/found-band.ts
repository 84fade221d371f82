// The pass band that a driver really gets: corners and slopes as far as it dominates what was heard.
import { passBand } from '../pass-band.ts';
import type { PlannedBand } from './channel-fit.ts';
import { type FittedEdge, fittedEdge } from './fitted-edge.ts';
import { POINTS_PER_OCTAVE } from './near-take.ts';
import type { NearPlaceReading } from './read-places.ts';

export interface FoundBand {
  /** 6 dB under the middle of the band; null where the neighbours take over before, Hz. */
  lowHz: number | null;
  lowSlopeDbPerOctave: number | null;
  highHz: number | null;
  highSlopeDbPerOctave: number | null;
  /** True: the slope is at least that; the neighbours cover the rest of the fall. */
  lowSlopeAtLeast: boolean;
  highSlopeAtLeast: boolean;
  /** The filter that fits the fall best, the driver's own taken out; null where it shows too little. */
  highPass: FittedEdge | null;
  lowPass: FittedEdge | null;
}

const LEAST_SLOPE_DB = 12;
const SMOOTH_OCTAVES = 1 / 3;

/** Power mean over a third of an octave of the own points; null outside. */
function smoothed(reading: NearPlaceReading): (number | null)[] {
  const { points } = reading.own;
  const reach = Math.round((SMOOTH_OCTAVES * POINTS_PER_OCTAVE) / 2);
  return points.map(({ kind }, k) => {
    if (kind !== 'own') return null;
    const near = points.slice(Math.max(0, k - reach), k + reach + 1).filter((point) => point.kind === 'own');
    return 10 * Math.log10(near.reduce((sum, { levelDb }) => sum + 10 ** (levelDb / 10), 0) / near.length);
  });
}

/** A fall that is hidden by neighbours is at least this steep where the points that hide it allow no gentler one. */
function atLeast(slope: number | null, cornerHz: number | null): { slope: number | null; atLeast: boolean } {
  if (slope !== null || cornerHz === null) return { slope, atLeast: false };
  return { slope: LEAST_SLOPE_DB, atLeast: true };
}

/**
 * Corners, slopes and filters of a place.
 *
 * Only where the driver itself dominates is anything read; a fall that drowns among the neighbours before 12 dB are seen is
 * given as "at least 12 dB per octave".
 *
 * @param planned  filters that the fit prefers where several fit equally well
 * @returns null where the driver dominates nowhere
 */
export function foundBand(reading: NearPlaceReading, planned: PlannedBand): FoundBand | null {
  const { points, rangeHz } = reading.own;
  if (!rangeHz) return null;
  const band = passBand(
    points.map(({ fHz }) => fHz),
    smoothed(reading),
  );
  const low = atLeast(band.lowSlopeDbPerOctave, band.lowHz);
  const high = atLeast(band.highSlopeDbPerOctave, band.highHz);
  return {
    lowHz: band.lowHz,
    lowSlopeDbPerOctave: low.slope,
    highHz: band.highHz,
    highSlopeDbPerOctave: high.slope,
    lowSlopeAtLeast: low.atLeast,
    highSlopeAtLeast: high.atLeast,
    highPass: fittedEdge(reading, 'high-pass', planned.highPass),
    lowPass: fittedEdge(reading, 'low-pass', planned.lowPass),
  };
}
