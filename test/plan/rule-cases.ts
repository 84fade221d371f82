// Plans told by their parts, and the three proofs that each rule owes.
import { describe, expect, test } from 'vitest';
import { findingsOf as allFindingsOf } from '../../src/job/rules/findings.ts';
import type { Circumstances } from '../../src/job/rules/plan-view.ts';
import { changed } from '../../src/plan/changes.ts';
import { type Plan, partsSchema, planSchema } from '../../src/plan/plan.ts';

/** A plan of these parts; it must be one that could be entered. */
export const planOf = (parts: object) => {
  const { schema: _, ...plan } = planSchema.parse({ schema: 'kickpanel.plan/1', ...parts });
  return plan;
};

export interface RuleCase {
  rule: string;
  severity: 'stop' | 'fix' | 'note';
  /** What the message must contain. */
  says: string;
  wrong: object;
  sound: object;
  unknown: object;
  /** What is known of the job beside its plan. */
  circumstances?: Circumstances;
}

/** One plan that has the fault, one just clear of it, and one of which it cannot be told. */
export function proveRules(cases: readonly RuleCase[]): void {
  describe.each(cases)('$rule ($severity)', ({ rule, severity, says, wrong, sound, unknown, circumstances }) => {
    const findingsOf = (plan: Plan) => allFindingsOf(plan, undefined, circumstances);
    test('is found, with its numbers, in words', () => {
      const found = findingsOf(planOf(wrong)).findings.filter(({ id }) => id === rule);
      expect(found).not.toEqual([]);
      expect(found[0].severity).toBe(severity);
      expect(found[0].message).toContain(says);
      expect(found[0].clears).not.toBe('');
      for (const value of Object.values(found[0].values)) expect(value).not.toBeNaN();
    });
    test('is cleared by the change that it offers, if it offers one', () => {
      const plan = planOf(wrong);
      const [{ place, changes = [] }] = findingsOf(plan).findings.filter(({ id }) => id === rule);
      if (changes.length === 0) return;
      const mended = changes.reduce(changed, plan);
      expect(partsSchema.parse(mended)).toEqual(mended);
      expect(findingsOf(mended).findings.filter((found) => found.id === rule && found.place === place)).toEqual([]);
    });
    test('is not found just clear of it', () => {
      const { findings, cannotTell } = findingsOf(planOf(sound));
      expect([...findings, ...cannotTell].filter(({ id }) => id === rule)).toEqual([]);
    });
    test('cannot be told where the plan is silent', () => {
      const { findings, cannotTell } = findingsOf(planOf(unknown));
      expect(findings.filter(({ id }) => id === rule)).toEqual([]);
      expect(cannotTell.filter(({ id }) => id === rule)).not.toEqual([]);
    });
  });
}
