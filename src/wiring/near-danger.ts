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

/** The output that feeds a place in more than half of what is likely; null where none does. */
function likelyFeeding(p: number, layouts: readonly WeightedLayout[]): number | null {
  const weights = new Map<number | null, number>();
  let sum = 0;
  for (const { layout, states, total } of layouts) {
    const output = layout.indexOf(p);
    const feeding = states[output] === 'silent' ? null : output;
    const weight = 10 ** (-total / 10);
    weights.set(feeding, (weights.get(feeding) ?? 0) + weight);
    sum += weight;
  }
  return [...weights].find(([, weight]) => weight > sum / 2)?.[0] ?? null;
}

/**
 * Drivers whose found band starts more than half an octave below their safe high-pass, or else the planned one.
 *
 * A place that another output more likely feeds than not gets that output's high-pass.
 *
 * @param bands    as found, in the order of the plan; null where nothing was found
 * @param layouts  all that explains the takes
 */
export function nearDanger(
  { outputs }: NearPlan,
  readings: readonly (NearPlaceReading | null)[],
  bands: readonly (FoundBand | null)[],
  layouts: readonly WeightedLayout[],
): NearFinding[] {
  return outputs.flatMap(({ place, highPass, safeHighPassHz }, p): NearFinding[] => {
    const reading = readings[p];
    const safeHz = safeHighPassHz ?? highPass?.fHz ?? null;
    if (safeHz === null) return [];
    const feeding = likelyFeeding(p, layouts);
    const measured =
      reading &&
      Math.max(reading.presence.left.levelDb, reading.presence.right.levelDb) >= PLAYS_DB &&
      (reading.fits[p]?.cost ?? 0) > FITS
        ? (bands[p]?.lowHz ?? null)
        : null;
    const foundHz =
      measured ?? (feeding !== null && feeding !== p ? (outputs[feeding].highPass?.fHz ?? LOWEST_HZ) : null);
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
