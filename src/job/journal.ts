// A job's journal as the deciders see it: what counts, what it makes, and what the next entry must follow on.
import type { Entry } from './entries.ts';
import { withTakenBack } from './hold-points/taken-back.ts';
import { type UnderstoodEntry, understood } from './lifts.ts';
import { inMergeOrder } from './merge-order.ts';
import { evolved, initialState } from './projections/evolve.ts';
import type { JobState } from './projections/job-state.ts';
import { withdrawnIds } from './undo.ts';

export interface Journal {
  readonly job: string;
  readonly state: JobState;
  /** By id, in merge order. */
  readonly entries: ReadonlyMap<string, Entry>;
  /** Ids of entries that were taken back. */
  readonly withdrawn: ReadonlySet<string>;
  /** The last count of each device. */
  readonly sequences: ReadonlyMap<string, number>;
}

/**
 * The journal that `entries` make, whatever the order they are given in.
 *
 * Clocks of two devices may disagree, so that what speaks of a take comes before the take: it is applied at the end.
 */
export function journalOf(job: string, entries: readonly Entry[]): Journal {
  const ordered = inMergeOrder(entries);
  const withdrawn = withdrawnIds(ordered);
  const sequences = new Map<string, number>();
  const takes = new Set<string>();
  const counting: UnderstoodEntry[] = [];
  const early: UnderstoodEntry[] = [];
  let notUnderstood = 0;
  for (const entry of ordered) {
    sequences.set(entry.device, Math.max(entry.sequence, sequences.get(entry.device) ?? 0));
    const known = understood(entry);
    if (known === null) notUnderstood++;
    if (known === null || withdrawn.has(entry.id)) continue;
    if (known.kind === 'take-recorded') takes.add(known.data.take);
    if (known.kind === 'take-noted' && !takes.has(known.data.take)) early.push(known);
    else counting.push(known);
  }
  const inTime = evolved(initialState(job), counting);
  const state = early.length === 0 ? inTime : evolved(inTime, early);
  return {
    job,
    state: {
      ...state,
      evidence: withTakenBack(state.evidence, ordered, withdrawn),
      undoable: inTime.undoable ?? state.undoable,
      changedWhen: ordered.reduce<string | null>(
        (last, { when }) => (last === null || when > last ? when : last),
        null,
      ),
      entries: ordered.length,
      undone: withdrawn.size,
      notUnderstood,
    },
    entries: new Map(ordered.map((entry) => [entry.id, entry])),
    withdrawn,
    sequences,
  };
}
