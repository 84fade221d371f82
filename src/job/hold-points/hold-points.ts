// The hold points of a job: what the plan opens, what evidence has closed, and what a change has opened again. None is
// closed by the tool alone.
import { z } from 'zod';
import { type Plan, partKinds } from '../../plan/plan.ts';
import { coverStates } from '../../plan/vehicle-parts.ts';
import { circumstancesOf } from '../projections/circumstances.ts';
import type { JobState } from '../projections/job-state.ts';
import { type PlanView, planView } from '../rules/plan-view.ts';
import { basisOf } from './basis.ts';
import { expectedSchema } from './evidence-forms.ts';
import { doubtSchema, type GivenEvidence } from './given-evidence.ts';
import { holdPointKinds, holdPointStages } from './ids.ts';
import { evidenceVerdicts, type JudgedEvidence, judgedEvidence } from './judged-evidence.ts';
import { type PlannedPoint, plannedPoints } from './planned-points.ts';

const ways = ['measured', 'take', 'photo', 'seen'] as const;

const hidingCoverSchema = z.object({
  cover: z.string().describe('id in the plan'),
  letter: z.string().nullable().describe('on the drawing of the vehicle'),
  name: z.string().nullable(),
  state: z.enum([...coverStates, 'unknown']).describe('unknown: nobody has said, so as the car came'),
});

const judgedEvidenceSchema = z.object({
  entry: z.string().nullable(),
  when: z.string().nullable(),
  who: z.string().nullable(),
  how: z.enum([...ways, 'reading', 'proof']).describe('reading and proof: as the plan has it'),
  says: z.string(),
  verdict: z.enum(evidenceVerdicts),
  why: z.string().exactOptional().describe('why it does not prove the point'),
  doubt: doubtSchema.exactOptional().describe('what made it stale'),
});

export const holdPointStates = ['open', 'closed', 're-opened'] as const;

export const holdPointSchema = z.object({
  id: z.string().describe('stable: made of the part, such as "lead L07 connected"'),
  kind: z.enum(holdPointKinds),
  of: z.object({ part: z.enum(partKinds), id: z.string() }),
  stage: z.enum(holdPointStages),
  name: z.string().describe('short, for a tag'),
  says: z.string().describe('what is to be proven, as a sentence'),
  accepts: z.array(z.enum(ways)).describe('what may close it'),
  closes: z.string(),
  expected: expectedSchema.nullable().describe('what a meter should read; null where that is not so or not known'),
  needs: z.string().nullable().describe('what is not known that the expected value needs'),
  covers: z.array(hidingCoverSchema).describe('that hide it'),
  opens: z.array(z.string()).describe('those of them that must be off for a meter or a look'),
  coversKnown: z.boolean().describe('false: the plan does not say what hides it'),
  state: z.enum(holdPointStates),
  reason: z.string().describe('what closed it, or why it is open'),
  evidence: z.array(judgedEvidenceSchema).describe('the oldest first'),
});

export type HoldPoint = z.infer<typeof holdPointSchema>;

const meters = new Set<JudgedEvidence['how']>(['measured', 'reading']);

/** What all that was given comes to. A reading that is not as expected is cleared by another reading, by nothing else. */
function stateOf(point: PlannedPoint, evidence: readonly JudgedEvidence[]): Pick<HoldPoint, 'state' | 'reason'> {
  const counting = evidence.filter(({ verdict }) => verdict !== 'stale');
  const lastRead = counting.findLast(({ how }) => meters.has(how));
  const proof = counting.findLast(({ verdict }) => verdict === 'proves');
  const before = evidence.some(({ verdict }) => verdict === 'stale' || verdict === 'proves');
  const opened = before ? 're-opened' : 'open';
  if (lastRead?.verdict === 'outside') return { state: opened, reason: lastRead.why ?? '' };
  if (proof !== undefined) {
    const by = proof.how === 'seen' || proof.who === null ? '' : ` (${proof.who})`;
    return { state: 'closed', reason: `${proof.says[0].toUpperCase()}${proof.says.slice(1)}${by}.` };
  }
  const stale = evidence.some(({ verdict }) => verdict === 'stale');
  const last = evidence.at(-1);
  if (last !== undefined) return { state: stale ? 're-opened' : 'open', reason: last.why ?? '' };
  const unknown = point.needs === null ? '' : ` What a meter should read needs ${point.needs}.`;
  return { state: 'open', reason: `Nothing has proven it yet.${unknown}` };
}

function holdPoint(view: PlanView, point: PlannedPoint, given: readonly GivenEvidence[]): HoldPoint {
  const { hidden, lane: _, ...rest } = point;
  const evidence = judgedEvidence(view, point, given, given.length === 0 ? [] : basisOf(view.plan, point.id));
  const covers = hidden.covers.map((cover) => ({
    cover,
    letter: view.letterOf(cover) ?? null,
    name: view.part('cover', cover)?.name ?? null,
    state: view.coverIn(view.record.covers, cover)?.state ?? ('unknown' as const),
  }));
  return { ...rest, covers, opens: hidden.opens, coversKnown: hidden.known, ...stateOf(point, evidence), evidence };
}

/** The hold points of a plan made ready, in the order of the stages. */
export function holdPointsIn(view: PlanView): HoldPoint[] {
  const given = new Map<string, GivenEvidence[]>();
  for (const one of view.record.evidence) {
    const known = given.get(one.holdPoint);
    if (known === undefined) given.set(one.holdPoint, [one]);
    else known.push(one);
  }
  return plannedPoints(view).map((point) => holdPoint(view, point, given.get(point.id) ?? []));
}

/** The hold points of a plan that nobody has worked on. */
export function holdPointsOfPlan(plan: Plan): HoldPoint[] {
  return holdPointsIn(planView(plan));
}

/** The hold points of a job. */
export function holdPointsOf(state: JobState): HoldPoint[] {
  return holdPointsIn(planView(state.plan.parts, circumstancesOf(state)));
}

/** Whether nothing proves it as things are. */
export const isOpen = ({ state }: HoldPoint): boolean => state !== 'closed';
