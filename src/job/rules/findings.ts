// All that the rules find in a plan, in one order, and what they cannot tell.
import { z } from 'zod';
import { type PlanChange, planChangeSchema } from '../../plan/changes.ts';
import type { Plan } from '../../plan/plan.ts';
import { type Circumstances, planView } from './plan-view.ts';
import { isUnknown, severities, valuesSchema } from './rule.ts';
import { rules } from './rules.ts';
import { defaultSettings, type RuleSettings } from './settings.ts';

export const findingSchema = z.object({
  id: z.string(),
  code: z.string(),
  severity: z.enum(severities),
  place: z.string(),
  message: z.string(),
  values: valuesSchema,
  clears: z.string(),
  why: z.string(),
  changes: z.array(planChangeSchema).exactOptional(),
});

export const cannotTellSchema = z.object({
  id: z.string(),
  code: z.string(),
  place: z.string(),
  needs: z.string(),
  message: z.string(),
});

export type Finding = z.infer<typeof findingSchema> & { changes?: PlanChange[] };
export type CannotTell = z.infer<typeof cannotTellSchema>;

export interface Findings {
  findings: Finding[];
  cannotTell: CannotTell[];
}

interface Placed {
  id: string;
  place: string;
  message: string;
}

const byText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
const byPlace = (a: Placed, b: Placed) =>
  byText(a.id, b.id) || byText(a.place, b.place) || byText(a.message, b.message);

/** Each saying once: a driver on two channels would say the same of both. */
function once<Said extends Placed>(all: readonly Said[]): Said[] {
  return [...new Map(all.map((said) => [`${said.id} ${said.place} ${said.message}`, said])).values()];
}

/** Unknown is not sound: what cannot be told stands beside what is wrong. The order is severity, id, place. */
export function findingsOf(
  plan: Plan,
  settings: RuleSettings = defaultSettings,
  circumstances: Circumstances = {},
): Findings {
  const view = planView(plan, circumstances);
  const findings: Finding[] = [];
  const cannotTell: CannotTell[] = [];
  for (const { id, code, why, check } of rules) {
    for (const outcome of check(view, settings)) {
      if (outcome === null) continue;
      if (isUnknown(outcome)) {
        const { place, needs } = outcome;
        cannotTell.push({ id, code, place, needs, message: `Cannot tell for ${place}: ${needs} is not known.` });
      } else findings.push({ id, code, ...outcome, why });
    }
  }
  const weight = ({ severity }: Finding) => severities.indexOf(severity);
  return {
    findings: once(findings).sort((a, b) => weight(a) - weight(b) || byPlace(a, b)),
    cannotTell: once(cannotTell).sort(byPlace),
  };
}
