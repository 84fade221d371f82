// What a rule is: one thing that can be wrong with a plan, found or not, or not to be told from what is known.
import { z } from 'zod';
import type { PlanChange } from '../../plan/changes.ts';
import type { PlanView } from './plan-view.ts';
import type { RuleSettings } from './settings.ts';

export const severities = ['stop', 'fix', 'note'] as const;
export type Severity = (typeof severities)[number];

/** The numbers and names of a finding, each with its unit in its name. */
export const valuesSchema = z.record(z.string().max(60), z.union([z.number(), z.string().max(5000)]));

/** Something wrong, as a rule says it. Numbers in the message are in `values` too, with their unit in the name. */
interface Wrong {
  severity: Severity;
  /** What it is about, such as "run R1". */
  place: string;
  message: string;
  values: z.infer<typeof valuesSchema>;
  /** What would clear it, in words. */
  clears: string;
  /** The same as changes of the plan, where one tap can do it. */
  changes?: PlanChange[];
}

/** What a rule needs to know of `place` before it can tell. */
interface Unknown {
  place: string;
  needs: string;
}

export type Outcome = Wrong | Unknown | null;

/** A rule is pure: the same plan and settings give the same outcomes. */
export interface Rule {
  /** Stable, such as "E-01". */
  id: string;
  /** States what is wrong, as a fact. */
  code: string;
  /** Why it matters, in a sentence. */
  why: string;
  check: (view: PlanView, settings: RuleSettings) => Outcome[];
}

export function isUnknown(outcome: Wrong | Unknown): outcome is Unknown {
  return 'needs' in outcome;
}
