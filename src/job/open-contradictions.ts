// Contradictions of a job that nobody has settled yet: what two people did without knowing of each other.
import { type PlanChange, sameValue } from '../plan/changes.ts';
import type { JobState } from './projections/job-state.ts';

/** What a note is about that tells of two who changed the same thing. */
export const contradictionNote = 'contradiction';

export interface OpenContradiction {
  /** The entry that brought it to light. */
  entry: string;
  /** What happened, in sentences. */
  says: string;
  /** Of a part of the plan: what the one who lost had made of it. */
  lost?: PlanChange;
}

/** What a note is about that settles a contradiction. */
export const settlingNote = (entry: string): string => `settled ${entry}`;

/**
 * Contradictions that still count: a part of a plan that nobody has changed since, a cover or a reading that a note tells
 * of; none where a later note says that it is settled.
 */
export function openContradictions({ plan, notes }: JobState): OpenContradiction[] {
  const settled = new Set(notes.flatMap(({ about }) => (about === undefined ? [] : [about])));
  const ofPlan = plan.conflicts.flatMap(({ entry, who, part, id, over, lost }): OpenContradiction[] => {
    const last = plan.changes.find((change) => change.part === part && change.id === id);
    const now = plan.parts[part].find((one) => one.id === id) ?? null;
    if (last?.entry !== entry || sameValue(now, lost.value)) return [];
    const says = `${over.who} and ${who} both changed ${part} ${id} without knowing of each other. What ${who} wrote holds, because it came later.`;
    return [{ entry, says, lost }];
  });
  const ofNotes = notes
    .filter(({ about }) => about === contradictionNote)
    .map(({ entry, text }): OpenContradiction => ({ entry, says: text }));
  return [...ofPlan, ...ofNotes].filter(({ entry }) => !settled.has(settlingNote(entry)));
}
