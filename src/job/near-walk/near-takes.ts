// Which takes of a job were made close to a driver: the last of each place that counts.
import type { WalkedChannel, WalkOfJob } from '../../wiring/plan-of-job.ts';
import type { JobState } from '../projections/job-state.ts';

export type JobTake = JobState['takes'][number];

/** By all its names a place may stand in a take: its own, its id, that of its driver. */
function namesOf({ place, placeName, drivers }: WalkedChannel): Set<string> {
  const driverNames = drivers.flatMap(({ id, name }) => (name === undefined ? [id] : [id, name]));
  return new Set([place, placeName, ...driverNames].map((name) => name.trim().toLowerCase()));
}

/**
 * The takes that a near walk is read from.
 *
 * @returns by the place's id: its last take of a near track that was not set aside; places without one are left out
 */
export function nearTakesOf({ takes, tracks }: Pick<JobState, 'takes' | 'tracks'>, { channels }: WalkOfJob) {
  const near = new Set(tracks.filter(({ kind }) => kind === 'near').map(({ track }) => track));
  const found = new Map<string, JobTake>();
  const places = channels.map((channel) => ({ place: channel.place, names: namesOf(channel) }));
  for (const take of takes) {
    if (!take.kept || take.place === undefined || !near.has(take.track)) continue;
    const at = take.place.trim().toLowerCase();
    const place = places.find(({ names }) => names.has(at));
    if (place !== undefined) found.set(place.place, take);
  }
  return found;
}
