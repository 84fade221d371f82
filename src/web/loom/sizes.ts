// Sizes, lengths and fuses typed for the whole loom at once: what was typed, and the changes that it comes to.
import { type PlanChange, sameValue } from '../../plan/changes.ts';
import type { Part, PartKind, Plan } from '../../plan/plan.ts';

/** Fields typed so far, by kind and id. */
export type TypedParts = ReadonlyMap<string, { part: PartKind; id: string; fields: Record<string, unknown> }>;

export function withTyped(typed: TypedParts, part: PartKind, id: string, fields: Record<string, unknown>): TypedParts {
  const key = `${part} ${id}`;
  return new Map(typed).set(key, { part, id, fields: { ...typed.get(key)?.fields, ...fields } });
}

/** A part as the plan has it, with what was typed for it. */
export function partWith(plan: Plan, typed: TypedParts, part: PartKind, id: string): Part {
  const known = (plan[part] as Part[]).find((each) => each.id === id) ?? { id };
  const next: Record<string, unknown> = { ...known, ...typed.get(`${part} ${id}`)?.fields };
  for (const [field, value] of Object.entries(next)) if (value === undefined) delete next[field];
  return next as unknown as Part;
}

/** Parts that differ from what the plan has. */
export function typedChanges(plan: Plan, typed: TypedParts): PlanChange[] {
  return [...typed.values()].flatMap(({ part, id }) => {
    const value = partWith(plan, typed, part, id);
    const known = (plan[part] as Part[]).find((each) => each.id === id) ?? null;
    return sameValue(known, value) ? [] : [{ part, id, value }];
  });
}
