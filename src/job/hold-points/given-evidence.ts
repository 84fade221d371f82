// Evidence as a job holds it: what was given for each hold point, and what became doubtful when the plan changed after it.
import { z } from 'zod';
import type { PlanChange } from '../../plan/changes.ts';
import { type Part, type Plan, partKinds } from '../../plan/plan.ts';
import { changedFields, isSubstance } from '../../plan/rests-on.ts';
import { idSchema, timeSchema } from '../entries.ts';
import { basisOf } from './basis.ts';
import { evidenceSchema, expectedSchema } from './evidence-forms.ts';

const stamp = { entry: idSchema, when: timeSchema, who: z.string() };

export const doubtSchema = z.object({ ...stamp, part: z.enum(partKinds), id: z.string(), why: z.string() });

export const givenEvidenceSchema = z.object({
  ...stamp,
  holdPoint: z.string(),
  evidence: evidenceSchema,
  expected: expectedSchema.exactOptional(),
  /** The parts that it rests on, as the plan was. */
  restsOn: z.array(z.object({ part: z.enum(partKinds), id: z.string(), fields: z.array(z.string()).exactOptional() })),
  /** The first change after it that makes it doubtful. */
  stale: doubtSchema.exactOptional(),
});

/** A proof that the plan itself states, and what became of the part that it is about. */
export const staleProofSchema = doubtSchema.extend({ holdPoint: z.string() });

export type Doubt = z.infer<typeof doubtSchema>;
export type GivenEvidence = z.infer<typeof givenEvidenceSchema>;
export type StaleProof = z.infer<typeof staleProofSchema>;
interface Stamp {
  entry: string;
  when: string;
  who: string;
}
type Given = Pick<GivenEvidence, 'evidence' | 'expected'> & { holdPoints: readonly string[] };

/** One entry of evidence as records, one for each hold point that it speaks of. */
export function evidenceRecords(plan: Plan, stamp: Stamp, { holdPoints, evidence, expected }: Given): GivenEvidence[] {
  return [...new Set(holdPoints)].map((holdPoint) => ({
    ...stamp,
    holdPoint,
    evidence,
    ...(expected === undefined ? {} : { expected }),
    restsOn: basisOf(plan, holdPoint).map(({ fields, ...basis }) => ({
      ...basis,
      ...(fields === undefined ? {} : { fields: [...fields] }),
    })),
  }));
}

/** Whether a change of these fields (null: made or taken out) touches something that `basis` rests on. */
function touches(
  basis: readonly { part: string; id: string; fields?: readonly string[] }[],
  { part, id }: PlanChange,
  fields: Set<string> | null,
): boolean {
  return basis.some((one) => {
    if (one.id !== id || one.part !== part) return false;
    if (fields === null) return true;
    return one.fields === undefined ? isSubstance(fields) : one.fields.some((field) => fields.has(field));
  });
}

/** What a change says of evidence that rests on its part. */
export function doubtOf(stamp: Stamp, { part, id, value }: PlanChange, had: boolean): Doubt {
  const what = value === null ? 'taken out' : had ? 'changed' : 'added';
  const why = `${part} ${id} was ${what} on ${stamp.when.slice(0, 16).replace('T', ' ')}, after it was proven.`;
  return { ...stamp, part, id, why };
}

/** Changes `evidence`, which nobody else has: what rests on the changed part is doubtful from now on. */
export function markDoubtful(evidence: GivenEvidence[], stamp: Stamp, change: PlanChange, before: Part | null): void {
  if (evidence.length === 0) return;
  const fields = changedFields(before, change.value);
  if (fields !== null && fields.size === 0) return;
  for (const given of evidence) {
    if (given.stale !== undefined || !touches(given.restsOn, change, fields)) continue;
    given.stale = doubtOf(stamp, change, before !== null);
  }
}

/**
 * Changes `stale`: proofs that the plan states are as old as the hold point that states them, and rest on the part that
 * it is about.
 */
export function markProofs(
  stale: StaleProof[],
  stamp: Stamp,
  { plan, change, before }: { plan: Plan; change: PlanChange; before: Part | null },
): StaleProof[] {
  const { part, id, value } = change;
  if (part === 'holdPoint') return stale.filter(({ holdPoint }) => holdPoint !== id);
  const fields = changedFields(before, value);
  if (fields !== null && !isSubstance(fields)) return stale;
  const doubtful = plan.holdPoint.filter(
    (point) => point.of === id && point.proof !== undefined && !stale.some(({ holdPoint }) => holdPoint === point.id),
  );
  return [...stale, ...doubtful.map((point) => ({ ...doubtOf(stamp, change, before !== null), holdPoint: point.id }))];
}
