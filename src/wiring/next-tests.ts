// Which test tells the explanations apart best for the least work.
import type { Explanation } from './explanations.ts';
import type { WalkPlan } from './walk-request.ts';

export interface NextTest {
  test: string;
  /** What the result is worth: entropy over the explanations, all taken as equally likely. */
  valueBits: number;
  /** Work, in readings of a screen. */
  cost: number;
  /** Each possible result, and the explanations (by index) that it would leave. */
  outcomes: { outcome: string; explanations: number[] }[];
}

const WORK = { 'view-setting': 1, 'probe-amp': 3, 'probe-lead': 3 } as const;

const kindOf = (test: string): string => test.slice(0, test.indexOf(':'));
const nameOf = (test: string): string => test.slice(test.indexOf(':') + 1);

/** Every test that can be made: of each output's settings, each amplifier channel, each speaker lead. */
function allTests({ outputs }: WalkPlan): { test: string; cost: number }[] {
  return [
    ...outputs.map(({ id }) => ({ test: `view-setting:${id}`, cost: WORK['view-setting'] })),
    ...outputs.map(({ amp }) => ({ test: `probe-amp:${amp}`, cost: WORK['probe-amp'] })),
    ...outputs.map(({ place }) => ({ test: `probe-lead:${place}`, cost: WORK['probe-lead'] })),
  ];
}

/**
 * What a test gives if an explanation is true.
 *
 * `view-setting` reads mute and polarity of an output from the processor's screen: `on/normal`, `muted/inverted`, ...
 * `probe-amp` feeds an amplifier channel by hand, `probe-lead` a speaker lead at its amplifier end: a place with its
 * polarity, or `silent`.
 */
export function outcomeOf(plan: WalkPlan, test: string, { faults, speaker }: Explanation): string {
  const name = nameOf(test);
  if (kindOf(test) === 'view-setting') {
    return `${faults.includes(`mute:${name}`) ? 'muted' : 'on'}/${faults.includes(`invert:${name}`) ? 'inverted' : 'normal'}`;
  }
  const place =
    kindOf(test) === 'probe-amp'
      ? plan.outputs[speaker[plan.outputs.findIndex(({ amp }) => amp === name)]].place
      : name;
  if (faults.includes(`open:speaker:${place}`)) return 'silent';
  return `${place}${faults.includes(`reversed:speaker:${place}`) ? '-' : '+'}`;
}

/**
 * Tests that tell explanations apart, the one with most bits for its work first.
 *
 * @returns `[]` where one explanation is left or no test can tell them apart
 * Source: C. E. Shannon, A mathematical theory of communication, Bell Syst. Tech. J. 27, 1948: entropy of the outcomes.
 */
export function nextTests(plan: WalkPlan, left: Explanation[]): NextTest[] {
  if (left.length < 2) return [];
  const tests = allTests(plan).flatMap(({ test, cost }): NextTest[] => {
    const parts = new Map<string, number[]>();
    left.forEach((explanation, i) => {
      const outcome = outcomeOf(plan, test, explanation);
      parts.set(outcome, [...(parts.get(outcome) ?? []), i]);
    });
    if (parts.size < 2) return [];
    let valueBits = 0;
    for (const { length } of parts.values()) valueBits -= (length / left.length) * Math.log2(length / left.length);
    return [
      { test, valueBits, cost, outcomes: [...parts].map(([outcome, explanations]) => ({ outcome, explanations })) },
    ];
  });
  return tests.sort((a, b) => b.valueBits / b.cost - a.valueBits / a.cost);
}
