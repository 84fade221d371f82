// A near walk of a job, answered, with what a picture of each place needs.
import type { NearTake } from '../../measurement/near-field/near-take.ts';
import type { NearPlaceReading } from '../../measurement/near-field/read-places.ts';
import type { NearPlan } from '../../wiring/near-plan.ts';
import { type NearWalkAnswer, readNearWalk } from '../../wiring/near-walk.ts';

/** What was found at a place over frequency. */
export interface NearCurve {
  place: string;
  /** Rising in frequency; the level is against the loudest that is the driver's own, dB. */
  points: { fHz: number; levelDb: number; own: boolean }[];
}

export interface JobNearWalk extends NearWalkAnswer {
  curves: NearCurve[];
}

function curveOf(place: string, reading: NearPlaceReading | null): NearCurve[] {
  if (reading === null) return [];
  const { points } = reading.own;
  const own = points.filter(({ kind }) => kind === 'own').map(({ levelDb }) => levelDb);
  if (own.length === 0) return [];
  const loudest = Math.max(...own);
  return [
    {
      place,
      points: points.map(({ fHz, levelDb, kind }) => ({ fHz, levelDb: levelDb - loudest, own: kind === 'own' })),
    },
  ];
}

/**
 * Reads all near takes of a job together.
 *
 * @param takes  by place; places without one stay open
 * @returns the answer of `nearWalk`, and a curve for each place whose driver stands out anywhere
 */
export function jobNearWalk(plan: NearPlan, takes: ReadonlyMap<string, NearTake>): JobNearWalk {
  const { answer, readings } = readNearWalk(plan, takes);
  return { ...answer, curves: plan.outputs.flatMap(({ place }, p) => curveOf(place, readings[p])) };
}
