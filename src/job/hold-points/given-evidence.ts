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

/** What a change says of evidence that rests on its part. */
export function doubtOf(stamp: Stamp, { part, id, value }: PlanChange, had: boolean): Doubt {
  const what = value === null ? 'taken out' : had ? 'changed' : 'added';
  const why = `${part} ${id} was ${what} on ${stamp.when.slice(0, 16).replace('T', ' ')}, after it was proven.`;
  return { ...stamp, part, id, why };
}

/** One piece of evidence on one part; without fields all but the words of the part matter. */
interface Rest {
  given: GivenEvidence;
  fields: readonly string[] | undefined;
}

/** Evidence by the parts that it rests on. What is doubtful already is dropped when it is come by. */
interface Index {
  counted: number;
  byPart: Map<string, Rest[]>;
}

/** A list of evidence only grows while a journal is folded, so its index is caught up with, not made again. */
const indices = new WeakMap<GivenEvidence[], Index>();

function indexOf(evidence: GivenEvidence[]): Index {
  const index: Index = indices.get(evidence) ?? { counted: 0, byPart: new Map() };
  indices.set(evidence, index);
  for (; index.counted < evidence.length; index.counted++) {
    const given = evidence[index.counted];
    for (const { part, id, fields } of given.restsOn) {
      const key = `${part} ${id}`;
      const known = index.byPart.get(key);
      if (known === undefined) index.byPart.set(key, [{ given, fields }]);
      else known.push({ given, fields });
    }
  }
  return index;
}

/** Changes `evidence`, which nobody else has: what rests on the changed part is doubtful from now on. */
export function markDoubtful(evidence: GivenEvidence[], stamp: Stamp, change: PlanChange, before: Part | null): void {
  if (evidence.length === 0) return;
  const { byPart } = indexOf(evidence);
  const key = `${change.part} ${change.id}`;
  const resting = byPart.get(key);
  if (resting === undefined) return;
  const changed = changedFields(before, change.value);
  const substance = changed === null || isSubstance(changed);
  const standing = resting.filter(({ given, fields }) => {
    if (given.stale !== undefined) return false;
    const touched = fields === undefined ? substance : changed === null || fields.some((field) => changed.has(field));
    if (touched) given.stale = doubtOf(stamp, change, before !== null);
    return !touched;
  });
  if (standing.length < resting.length) byPart.set(key, standing);
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
