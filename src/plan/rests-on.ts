// What a meter reading rests on: when one of these parts changes, the reading was of something else.

import { sameValue } from './changes.ts';
import { driversIn } from './networks.ts';
import type { Part, PartOf, Plan } from './plan.ts';

/** Ids of the parts that `reading` rests on in `plan`. A lead's resistance is that of the coils behind it too. */
export function restsOn(plan: Plan, { of, quantity }: PartOf<'reading'>): Set<string> {
  const parts = new Set([of]);
  const lead = plan.lead.find(({ id }) => id === of);
  if (lead === undefined || quantity !== 'resistance') return parts;
  for (const { id, amplifier, network } of plan.load) {
    if (amplifier === undefined || amplifier !== lead.from) continue;
    parts.add(id);
    for (const driver of network === undefined ? [] : driversIn(network)) parts.add(driver);
  }
  return parts;
}

/** Fields that say nothing about the thing itself. */
const words = new Set(['name', 'note', 'colour']);

function material(part: Part | null | undefined): object | null {
  if (part === null || part === undefined) return null;
  return Object.fromEntries(Object.entries(part).filter(([field]) => !words.has(field)));
}

/** Whether two states of a part differ in more than words. */
export function differsInSubstance(before: Part | null | undefined, after: Part | null | undefined): boolean {
  return !sameValue(material(before), material(after));
}

/** Fields in which two states of a part differ; null where one of them is not there. */
export function changedFields(before: Part | null | undefined, after: Part | null | undefined): Set<string> | null {
  if (!before || !after) return null;
  const [old, now] = [before, after] as unknown as Record<string, unknown>[];
  const fields = new Set([...Object.keys(old), ...Object.keys(now)]);
  return new Set([...fields].filter((field) => !sameValue(old[field], now[field])));
}

/** Whether fields are more than words. */
export function isSubstance(fields: Iterable<string>): boolean {
  return [...fields].some((field) => !words.has(field));
}
