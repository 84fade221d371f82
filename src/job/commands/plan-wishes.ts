// What wishes about the plan come to: changes that say what their author had seen, or the reason why not.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { type PlanChange, planChangeSchema, sameValue } from '../../plan/changes.ts';
import { kindOf, type Part, type PartKind, partsOf } from '../../plan/plan.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import type { EntryData } from '../entry-kinds.ts';
import type { JobPlan } from '../projections/job-plan.ts';
import type { JobState } from '../projections/job-state.ts';
import { planCheckOf } from '../projections/plan-check.ts';
import type { CommandOf, SeenPart } from './commands.ts';

type PlanFact = Result<EntryData<'plan-changed'>>;

/** The part that is wished for: `value` under its id, in the form of its kind, with every complaint. */
export function partSet(part: PartKind, id: string, value: Record<string, unknown>): Result<PlanChange> {
  const parsed = planChangeSchema.safeParse({ part, id, value: { ...value, id } });
  if (parsed.success) return success(parsed.data);
  const issues = parsed.error.issues.map(({ path, message }): Issue => {
    const where = `${part} ${id}${path.length > 1 ? `: ${path.slice(1).join('.')}` : ''}`;
    return { code: 'part-invalid', message: `This cannot be in a plan: ${message}.`, where, mend: 'Mend this field.' };
  });
  return failure(...issues);
}

/** What the author of changes had seen of the plan; all that is known here, unless they come late and say so. */
type Seen = readonly SeenPart[] | undefined;

/** Changes that change something, each with the last change of its part that its author had seen. */
export function changesTold(plan: JobPlan, changes: readonly PlanChange[], seen: Seen, template?: string): PlanFact {
  const before = new Map([...partsOf(plan.parts)].map(({ kind, part }) => [`${kind} ${part.id}`, part]));
  const telling = changes.filter(
    ({ part, id, value }) => !sameValue((before.get(`${part} ${id}`) as Part | undefined) ?? null, value),
  );
  if (telling.length === 0) {
    const gone = changes.every(({ value }) => value === null);
    const message = gone ? 'The plan has no such part.' : 'The plan says so already.';
    return failure({ code: 'nothing-changes', message, mend: 'Nothing needs to be done.' });
  }
  const leaving = new Set(changes.filter(({ value }) => value === null).map(({ part, id }) => `${part} ${id}`));
  for (const { part, id, value } of telling) {
    const kind = value === null ? null : kindOf(plan.parts, id);
    if (kind === null || kind === part || leaving.has(`${kind} ${id}`)) continue;
    const message = `The id ${id} belongs to a ${kind} already.`;
    return failure({ code: 'id-taken', message, where: `${part} ${id}`, mend: 'Give the part an id of its own.' });
  }
  const known = seen ?? plan.changes;
  const seenOf = ({ part, id }: PlanChange) => known.find((change) => change.part === part && change.id === id);
  const told = telling.map((change) => {
    const last = seenOf(change);
    return last === undefined ? { change } : { change, seen: { entry: last.entry, when: last.when } };
  });
  return success(template === undefined ? { changes: told } : { changes: told, template });
}

/** The parts of a template; with `replace`, also what takes out the parts that it has not. */
export function templateChanges(plan: JobPlan, wish: CommandOf<'startPlanFromTemplate'>, seen: Seen): PlanFact {
  const there = [...partsOf(plan.parts)];
  if (there.length > 0 && wish.replace !== true) {
    const message = `The plan has ${there.length} ${there.length === 1 ? 'part' : 'parts'} already.`;
    const mend = 'Say that the template is to replace them; undo brings them back.';
    return failure({ code: 'plan-begun', message, where: wish.template, mend });
  }
  const set = [...partsOf(templatePlan(wish.template))].map(
    ({ kind, part }): PlanChange => ({ part: kind, id: part.id, value: part }),
  );
  const kept = new Set(set.map(({ part, id }) => `${part} ${id}`));
  const leaving = there
    .filter(({ kind, part }) => !kept.has(`${kind} ${part.id}`))
    .map(({ kind, part }): PlanChange => ({ part: kind, id: part.id, value: null }));
  return changesTold(plan, [...leaving, ...set], seen, wish.template);
}

/**
 * The finding that is to be accepted, as it is now.
 *
 * A stop clears by facts only. One exception: a cover may be closed over what is unproven, by whoever signs for it.
 */
export function findingToOverride(
  state: JobState,
  { finding, place, why }: CommandOf<'overrideFinding'>,
): Result<EntryData<'finding-overridden'>> {
  const where = `${finding} at ${place}`;
  const found = planCheckOf(state).findings.find((known) => known.id === finding && known.place === place);
  if (found === undefined) {
    const mend = 'Give the id and the place as the findings show them.';
    return failure({ code: 'finding-unknown', message: 'The plan has no such finding.', where, mend });
  }
  if (found.severity === 'stop' && found.id !== 'P-01') {
    return failure({ code: 'finding-stops', message: 'A stop cannot be accepted.', where, mend: found.clears });
  }
  if (found.accepted !== undefined && found.accepted.stale === undefined) {
    const mend = 'Nothing needs to be done; undo takes the acceptance back.';
    return failure({ code: 'nothing-changes', message: 'This was accepted already.', where, mend });
  }
  const { severity, message, values } = found;
  return success({ finding, place, severity, message, values, why });
}
