// Danger first: a driver that gets sound below what it bears.
import type { FoundBand } from '../measurement/near-field/found-band.ts';
import type { NearPlaceReading } from '../measurement/near-field/read-places.ts';
import type { NearPlan } from './near-plan.ts';
import type { WeightedLayout } from './weighted-search.ts';

export interface NearFinding {
  code: 'driver-below-its-high-pass';
  severity: 'stop';
  place: string;
  message: string;
  values: { foundHz: number; safeHz: number };
  clears: string;
}

/** What an output without a high-pass lets through, Hz. */
const LOWEST_HZ = 20;
/** Half an octave. */
const MOST_BELOW = Math.SQRT1_2;
/** Only the band of a driver that certainly plays is judged, dB of presence. */
const PLAYS_DB = 9;
/** A band that fits the planned filters this well is theirs, whatever its neighbours add below. */
const FITS = 12;

/**
 * Drivers whose found band starts more than half an octave below their safe high-pass, or else the planned one.
 *
 * A place that another output feeds, by all that explains the takes best, gets that output's high-pass.
 *
 * @param bands  as found, in the order of the plan; null where nothing was found
 * @param best   what explains the takes best; null where nothing does
 */
export function nearDanger(
  { outputs }: NearPlan,
  readings: readonly (NearPlaceReading | null)[],
  bands: readonly (FoundBand | null)[],
  best: WeightedLayout | null,
): NearFinding[] {
  return outputs.flatMap(({ place, highPass, safeHighPassHz }, p): NearFinding[] => {
    const reading = readings[p];
    const safeHz = safeHighPassHz ?? highPass?.fHz ?? null;
    if (safeHz === null) return [];
    const feeding = best ? best.layout.indexOf(p) : p;
    const fedWrongly = best !== null && feeding !== p && best.states[feeding] !== 'silent';
    const measured =
      reading &&
      Math.max(reading.presence.left.levelDb, reading.presence.right.levelDb) >= PLAYS_DB &&
      (reading.fits[p]?.cost ?? 0) > FITS
        ? (bands[p]?.lowHz ?? null)
        : null;
    const foundHz = measured ?? (fedWrongly ? (outputs[feeding].highPass?.fHz ?? LOWEST_HZ) : null);
    if (foundHz === null || foundHz >= safeHz * MOST_BELOW) return [];
    return [
      {
        code: 'driver-below-its-high-pass',
        severity: 'stop',
        place,
        message: `Stop: ${place} is fed from ${Math.round(foundHz)} Hz on, and its high-pass is meant to be ${Math.round(safeHz)} Hz. It can be destroyed at any level.`,
        values: { foundHz, safeHz },
        clears:
          'Turn the volume down and the amplifier off, find which output feeds it, and prove its high-pass before anything else is played.',
      },
    ];
  });
}
