// What rules and hold points need to know of a job beside its plan.
import type { Circumstances } from '../rules/plan-view.ts';
import type { JobState } from './job-state.ts';

export function circumstancesOf({ plan, covers, takes, vehicle, evidence, photos }: JobState): Circumstances {
  const { changes, stale, staleProofs } = plan;
  return {
    readingsStale: stale.map(({ reading }) => reading),
    body: vehicle.bodyType,
    steering: vehicle.steering,
    takes: takes.filter(({ kept }) => kept).map(({ take: id, name, covers: at }) => ({ id, name, covers: at })),
    // The last word on a cover comes last, whether it was called by its letter or by its id.
    record: {
      covers: [...covers].sort((a, b) => (a.since < b.since ? -1 : a.since > b.since ? 1 : 0)),
      evidence,
      changes,
      stale,
      staleProofs,
      photos,
    },
  };
}
