// The plan of a job, with what became doubtful when it changed, and what two devices changed without knowing.
import { z } from 'zod';
import { changed, type PlanChange, planChangeSchema, sameValue } from '../../plan/changes.ts';
import { emptyPlan, type Part, partKinds, partsSchema } from '../../plan/plan.ts';
import { differsInSubstance, restsOn } from '../../plan/rests-on.ts';
import { idSchema, timeSchema } from '../entries.ts';
import type { seenPlanChangeSchema } from '../entry-kinds.ts';
import { type GivenEvidence, markDoubtful, markProofs, staleProofSchema } from '../hold-points/given-evidence.ts';
import { severities, valuesSchema } from '../rules/rule.ts';

const stamp = { entry: idSchema, when: timeSchema, who: z.string() };

const overrideSchema = z.object({
  ...stamp,
  /** The rule, such as "E-02", and the place that it spoke of. */
  finding: z.string(),
  place: z.string(),
  severity: z.enum(severities),
  message: z.string(),
  values: valuesSchema,
  why: z.string(),
});

export const jobPlanSchema = z.object({
  parts: partsSchema,
  /** The template that it was started from. */
  template: z.string().exactOptional(),
  /** The last change of each part, those taken out included. */
  changes: z.array(z.object({ ...stamp, part: z.enum(partKinds), id: z.string() })),
  /** Readings that rest on what was changed after they were taken. */
  stale: z.array(z.object({ ...stamp, reading: z.string(), part: z.string(), why: z.string() })),
  /** Hold points whose proof, as the plan states it, rests on what was changed after it. */
  staleProofs: z.array(staleProofSchema),
  /** One part changed by two who did not see each other: the later entry holds, the earlier is named here. */
  conflicts: z.array(
    z.object({ ...stamp, part: z.enum(partKinds), id: z.string(), over: z.object(stamp), lost: planChangeSchema }),
  ),
  /** The last override of each finding. */
  overrides: z.array(overrideSchema),
});

export type JobPlan = z.infer<typeof jobPlanSchema>;
type Stamp = { entry: string; when: string; who: string };
type SeenChange = z.infer<typeof seenPlanChangeSchema>;

export function emptyJobPlan(): JobPlan {
  return { parts: emptyPlan(), changes: [], stale: [], staleProofs: [], conflicts: [], overrides: [] };
}

function partIn(plan: JobPlan, { part, id }: Pick<PlanChange, 'part' | 'id'>): Part | null {
  return (plan.parts[part] as Part[]).find((known) => known.id === id) ?? null;
}

/** Whether somebody changed the part after what the author of a new change had seen. */
function unseen(last: Stamp, seen: SeenChange['seen']): boolean {
  return seen === undefined || (last.entry !== seen.entry && last.when >= seen.when);
}

function markStale(plan: JobPlan, stamp: Stamp, { part, id, value }: PlanChange, before: JobPlan['parts']): void {
  const already = new Set(plan.stale.map(({ reading }) => reading));
  for (const reading of before.reading) {
    if (already.has(reading.id) || !restsOn(before, reading).has(id)) continue;
    const why = `${part} ${id} was ${value === null ? 'taken out' : 'changed'} after it was read.`;
    plan.stale.push({ ...stamp, reading: reading.id, part: id, why });
  }
}

/** Changes `plan` and `evidence`, which nobody else has: each change in turn, with what it makes doubtful. */
export function applyPlanChanges(
  plan: JobPlan,
  evidence: GivenEvidence[],
  stamp: Stamp,
  changes: readonly SeenChange[],
): void {
  for (const { change, seen } of changes) {
    const { part, id, value } = change;
    const before = partIn(plan, change);
    const last = plan.changes.find((known) => known.part === part && known.id === id);
    if (last !== undefined && unseen(last, seen) && !sameValue(before, value)) {
      const { entry, when, who } = last;
      plan.conflicts.push({ ...stamp, part, id, over: { entry, when, who }, lost: { part, id, value: before } });
    }
    const partsBefore = plan.parts;
    markDoubtful(evidence, stamp, change, before);
    plan.staleProofs = markProofs(plan.staleProofs, stamp, { plan: partsBefore, change, before });
    plan.parts = changed(partsBefore, change);
    if (last !== undefined) Object.assign(last, stamp);
    else plan.changes.push({ ...stamp, part, id });
    if (part === 'reading') plan.stale = plan.stale.filter(({ reading }) => reading !== id);
    else if (differsInSubstance(before, value)) markStale(plan, stamp, change, partsBefore);
  }
}
