// A plan in a file: read and checked, or written as a job has it.
import { type Result, success } from '../../base/result.ts';
import type { PlanChange } from '../../plan/changes.ts';
import { type Part, type Plan, partKinds, partsOf, planSchema } from '../../plan/plan.ts';
import { readJsonFile } from '../json-file.ts';

export function readPlanFile(path: string): Result<Plan> {
  const file = readJsonFile(path, planSchema, 'a plan (kickpanel.plan/1)');
  if (!file.ok) return file;
  const { schema: _, note: __, ...plan } = file.value;
  return success(plan);
}

/** The plan as a file holds it; kinds without parts are left out. */
export function planFile(plan: Plan): object {
  const lists = partKinds.filter((kind) => plan[kind].length > 0).map((kind) => [kind, plan[kind]]);
  return { schema: 'kickpanel.plan/1', ...Object.fromEntries(lists) };
}

/** What makes `before` into `after`. */
export function changesBetween(before: Plan, after: Plan): PlanChange[] {
  const kept = new Set([...partsOf(after)].map(({ kind, part }) => `${kind} ${part.id}`));
  const leaving = [...partsOf(before)].filter(({ kind, part }) => !kept.has(`${kind} ${part.id}`));
  return [
    ...leaving.map(({ kind, part }) => ({ part: kind, id: part.id, value: null })),
    ...[...partsOf(after)].map(({ kind, part }) => ({ part: kind, id: part.id, value: part as Part })),
  ];
}
