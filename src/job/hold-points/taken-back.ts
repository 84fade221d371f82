// Evidence that was given while the plan said something that was taken back afterwards, or given back: what was proven then
// is not what the plan says now.
import { changed } from '../../plan/changes.ts';
import { emptyPlan, type Part, type Plan } from '../../plan/plan.ts';
import { changedFields, isSubstance } from '../../plan/rests-on.ts';
import type { Entry } from '../entries.ts';
import { type UnderstoodEntry, understood } from '../lifts.ts';
import { withdrawnIds } from '../undo.ts';
import { type Basis, basisOf } from './basis.ts';
import type { Doubt, GivenEvidence } from './given-evidence.ts';

type PlanEntry = Extract<UnderstoodEntry, { kind: 'plan-changed' }>;

const after = (plan: Plan, entry: PlanEntry): Plan =>
  entry.data.changes.reduce((made, { change }) => changed(made, change), plan);

/** The entry at the end of a chain of undo and undo undone. */
function rootOf(entry: Entry, byId: ReadonlyMap<string, Entry>): Entry | undefined {
  const seen = new Set<string>();
  let at: Entry | undefined = entry;
  while (at?.kind === 'undone' && !seen.has(at.id)) {
    seen.add(at.id);
    at = byId.get(String(at.data.entry));
  }
  return at;
}

/** What of a basis two plans do not agree in; undefined where they do. */
function differing(basis: readonly Basis[], then: Plan, now: Plan): Basis | undefined {
  return basis.find(({ part, id, fields }) => {
    const [was, is] = [then, now].map((plan) => (plan[part] as Part[]).find((known) => known.id === id));
    if (was === undefined && is === undefined) return false;
    const differ = changedFields(was, is);
    if (differ === null) return true;
    return fields === undefined ? isSubstance(differ) : fields.some((field) => differ.has(field));
  });
}

/** Plans as they were seen when each piece of evidence was given, and as they are told now that entries were taken back. */
function plansAt(ordered: readonly Entry[], withdrawn: ReadonlySet<string>, toggles: ReadonlySet<string>) {
  const made = new Map<string, { then: Plan; now: Plan; at: number }>();
  const changes: PlanEntry[] = [];
  let [then, now] = [emptyPlan(), emptyPlan()];
  // Told anew only where evidence asks for it: a long journal has many undos and little evidence after them.
  let turned = false;
  ordered.forEach((entry, at) => {
    if (entry.kind === 'evidence-given' && !withdrawn.has(entry.id)) {
      if (turned) {
        const gone = withdrawnIds(ordered.slice(0, at));
        then = changes.filter(({ id }) => !gone.has(id)).reduce(after, emptyPlan());
        turned = false;
      }
      made.set(entry.id, { then, now, at });
    }
    turned ||= toggles.has(entry.id);
    const known = entry.kind === 'plan-changed' ? understood(entry) : null;
    if (known?.kind !== 'plan-changed') return;
    changes.push(known);
    if (!turned) then = after(then, known);
    if (!withdrawn.has(entry.id)) now = after(now, known);
  });
  return made;
}

/**
 * `evidence` with what is doubtful because an entry before it was taken back, or given back, after it.
 *
 * @param ordered   entries in merge order; @param withdrawn ids of those that do not count
 */
export function withTakenBack(
  evidence: readonly GivenEvidence[],
  ordered: readonly Entry[],
  withdrawn: ReadonlySet<string>,
): GivenEvidence[] {
  const undone = ordered.filter(({ kind }) => kind === 'undone');
  if (evidence.length === 0 || undone.length === 0) return [...evidence];
  const byId = new Map(ordered.map((entry) => [entry.id, entry]));
  const toggles = undone.filter((entry) => rootOf(entry, byId)?.kind === 'plan-changed');
  if (toggles.length === 0) return [...evidence];
  const plans = plansAt(ordered, withdrawn, new Set(toggles.map(({ id }) => id)));
  const place = new Map(ordered.map(({ id }, at) => [id, at]));
  return evidence.map((given) => {
    const seen = plans.get(given.entry);
    if (seen === undefined || given.stale !== undefined) return given;
    const { then, now, at } = seen;
    const basis = differing([...basisOf(then, given.holdPoint), ...given.restsOn], then, now);
    if (basis === undefined) return given;
    const by = toggles.find(({ id }) => (place.get(id) ?? 0) > at) ?? toggles[toggles.length - 1];
    return { ...given, stale: doubtOf(by, basis) };
  });
}

function doubtOf({ id: entry, when, who }: Entry, { part, id }: Basis): Doubt {
  const day = when.slice(0, 16).replace('T', ' ');
  return { entry, when, who, part, id, why: `${part} ${id} was set back by an undo on ${day}, after it was proven.` };
}
