// What a near walk proves: hold points of places that are as planned, each by the take that shows it.

import type { NearPlaceAnswer } from '../../wiring/near-walk.ts';
import type { WalkedChannel } from '../../wiring/plan-of-job.ts';
import { holdPointsOf } from '../hold-points/hold-points.ts';
import { holdPointId } from '../hold-points/ids.ts';
import type { JobState } from '../projections/job-state.ts';
import type { NearPlanOfJob } from './near-plan-of-job.ts';
import type { JobTake } from './near-takes.ts';

export interface NearProof {
  place: string;
  /** Id of the take that shows it. */
  take: string;
  holdPoints: string[];
}

/** Whether the plan of a channel, its load or its leads was changed after the take was made. */
function changedSince({ plan }: JobState, { id, amplifier, output }: WalkedChannel, when: string): boolean {
  const { parts, changes } = plan;
  const on = new Set([
    `channel ${id}`,
    ...parts.load.filter((load) => load.amplifier === amplifier).map((load) => `load ${load.id}`),
    ...parts.lead.filter(({ from }) => from === amplifier || from === output).map((lead) => `lead ${lead.id}`),
  ]);
  return changes.some((change) => change.when > when && on.has(`${change.part} ${change.id}`));
}

/**
 * Hold points that are open and that the walk shows to be right: channel reaches, its leads, which way its driver moves.
 *
 * A place counts that is as planned; while any driver gets what it cannot bear nothing is proven. A take that is older than
 * a change of what it shows proves nothing.
 *
 * @param takes  by place, those that were read
 * @returns by place, in the order of the plan; places that prove nothing are left out
 */
export function nearProofs(
  state: JobState,
  { walk }: Pick<NearPlanOfJob, 'walk'>,
  answer: { places: readonly NearPlaceAnswer[]; findings: readonly unknown[] },
  takes: ReadonlyMap<string, JobTake>,
): NearProof[] {
  if (answer.findings.length > 0) return [];
  const open = new Set(holdPointsOf(state).flatMap(({ id, state: now }) => (now === 'closed' ? [] : [id])));
  return walk.channels.flatMap((channel): NearProof[] => {
    const told = answer.places.find(({ place }) => place === channel.place);
    const take = takes.get(channel.place);
    if (told?.verdict !== 'as-planned' || take === undefined || changedSince(state, channel, take.when)) return [];
    const leads = [channel.speakerLead, channel.signalLead].map((lead) => holdPointId('lead-connected', lead));
    // Of several drivers on one channel nobody can say which of them was heard to move.
    const sure = told.polarity.againstPlan === 1 && channel.drivers.length === 1;
    const polarity = sure ? [holdPointId('driver-polarity', channel.drivers[0].id)] : [];
    const shown = [holdPointId('channel-reaches', channel.id), ...leads, ...polarity].filter((id) => open.has(id));
    return shown.length === 0 ? [] : [{ place: channel.place, take: take.take, holdPoints: shown }];
  });
}
