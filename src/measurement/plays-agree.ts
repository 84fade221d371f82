// What two plays of one sweep do not both say is no property of the car.
import type { SweepSegment } from '../signals/track.ts';
import type { Response } from './reading.ts';

/** Change of one frequency between two plays at one level that no driver makes, dB. */
const UNLIKE_DB = 2;
/** A piece lost or doubled in a sweep spoils this much beside the place where the plays part. */
const BESIDE_OCTAVES = 1 / 12;

/** Whether two segments are plays of one sweep: the car owes them the same answer. */
export function sameSweep(one: SweepSegment, other: SweepSegment): boolean {
  return (['side', 'fromHz', 'toHz', 'durationS', 'levelDbfs'] as const).every((field) => one[field] === other[field]);
}

/**
 * Which points the plays of one sweep agree on.
 *
 * @param plays  responses of one sweep, all on one grid; one alone agrees with itself
 * @returns per point of the grid: false where two valid levels lie more than 2 dB apart, and 1/12 octave beside
 */
export function agreedPoints(plays: readonly Response[]): boolean[] {
  const { fHz } = plays[0];
  const apart = fHz.filter((_, i) => {
    const known = plays.flatMap(({ levelDb, valid }) => (valid[i] ? (levelDb[i] ?? []) : []));
    return Math.max(...known) - Math.min(...known) > UNLIKE_DB;
  });
  return fHz.map((f) => !apart.some((other) => Math.abs(Math.log2(other / f)) <= BESIDE_OCTAVES + 1e-9));
}
