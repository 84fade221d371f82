// Small changes of a plan: a part set or taken out. Everything that edits a plan comes to these.
import { z } from 'zod';
import { type Part, type PartKind, type Plan, partKinds, partSchemas } from './plan.ts';

/** One part as it should be, or null for "not there". */
export interface PlanChange {
  part: PartKind;
  id: string;
  value: Part | null;
}

const oneChange = <Kind extends PartKind>(part: Kind) =>
  z.strictObject({ part: z.literal(part), id: partSchemas[part].shape.id, value: partSchemas[part].nullable() });

const forms = partKinds.map((kind) => oneChange(kind));

/** A change as it comes from outside: its value must be a part of its kind, under its own id. */
export const planChangeSchema = z
  .discriminatedUnion('part', forms as unknown as [(typeof forms)[number], ...typeof forms])
  .refine(({ id, value }) => value === null || value.id === id, {
    message: 'the value must carry the same id',
    path: ['value', 'id'],
  }) as unknown as z.ZodType<PlanChange>;

/** The plan after `change`; the plan given is not changed. */
export function changed(plan: Plan, { part, id, value }: PlanChange): Plan {
  const list = plan[part] as Part[];
  const at = list.findIndex((known) => known.id === id);
  const rest = list.filter((known) => known.id !== id);
  if (value === null) return at < 0 ? plan : { ...plan, [part]: rest };
  const next = at < 0 ? [...list, value] : list.map((known, n) => (n === at ? value : known));
  return { ...plan, [part]: next };
}

/** Whether two values of JSON say the same, whatever the order of their keys. */
export function sameValue(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  const other = b as Record<string, unknown>;
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => Object.hasOwn(other, key) && sameValue((a as Record<string, unknown>)[key], other[key]))
  );
}
