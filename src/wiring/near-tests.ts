// What to do next after a near-field walk: the tests that tell ties apart, and the takes that are missing or thin.
import type { Explanation } from './explanations.ts';
import { COST } from './input-states.ts';
import type { NearPlan } from './near-plan.ts';
import { type NextTest, nextTests } from './next-tests.ts';

/** Work of one more take, in readings of a screen. */
const TAKE_WORK = 2;

/** Entropy of outcomes that are as likely as their costs say, bits. */
function entropyBits(costs: number[]): number {
  const weights = costs.map((cost) => 10 ** (-cost / 10));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.reduce((sum, weight) => sum - (weight / total) * Math.log2(weight / total), 0);
}

/** A lead can be turned over in two places, and be silent in three. */
const TURNED = [COST.turned, COST.turned];
const SILENT = [COST.open, COST.open, COST.open];

/**
 * Tests that tell the explanations apart, and `near-take:PLACE` for places that nothing proves yet: best value for the
 * work first.
 *
 * @param told  places with a take, and whether it could be read
 */
export function nearTests(
  plan: NearPlan,
  left: Explanation[],
  told: readonly { place: string; verdict: string }[],
  notProven: readonly string[],
): NextTest[] {
  const takes = notProven.map((place): NextTest => {
    const read = told.some((one) => one.place === place && one.verdict !== 'cannot-say');
    const outcomes = read
      ? ['as planned', 'the other way round']
      : ['as planned', 'the other way round', 'silent', 'another channel'];
    return {
      test: `near-take:${place}`,
      valueBits: entropyBits(read ? [0, ...TURNED] : [0, ...TURNED, ...SILENT, COST.swap]),
      cost: TAKE_WORK,
      outcomes: outcomes.map((outcome) => ({ outcome, explanations: left.map((_, index) => index) })),
    };
  });
  return [...nextTests(plan, left), ...takes].sort((a, b) => b.valueBits / b.cost - a.valueBits / a.cost);
}
