// What became of one check between the day the car came and the day it goes back.

import { type AnswerVerdict, checkWords, expectedHere, type JudgedAnswer } from './answer-verdict.ts';
import { type Found, plainCheckValue } from './check-forms.ts';
import type { Check, CheckExpectation } from './checks.ts';

export const changes = ['worse', 'better', 'same', 'not-tried', 'cannot-tell'] as const;
export type Change = (typeof changes)[number];

export interface StageAnswer extends JudgedAnswer {
  found: Found;
}

export interface Difference {
  change: Change;
  says: string;
}

const difference = (change: Change, says: string): Difference => ({ change, says });

type Measured = Extract<Found, { how: 'measured' }>;

/** How far a value lies outside of what is expected; 0 within. */
const outBy = (value: number, { low, high }: { low: number; high: number }) => Math.max(low - value, value - high, 0);

/** Readings are held against the range first; within it the better way counts, and so little is nothing. */
function measuredDifference(
  expected: CheckExpectation,
  [before, now]: readonly [Measured, Measured],
  systemVoltageV: number | undefined,
): Difference {
  const was = plainCheckValue(before.value, before.unit);
  const is = plainCheckValue(now.value, now.unit);
  const words = `${checkWords(was.value, was.unit)}, now ${checkWords(is.value, is.unit)}`;
  const range = expectedHere(expected, is.value, systemVoltageV);
  const [wasOut, isOut] = [outBy(was.value, range), outBy(is.value, range)];
  const { sameWithin, better } = expected;
  // What rounding of the sums may take away.
  const near = Math.abs(is.value - was.value) <= sameWithin + 1e-9;
  if (wasOut > 0 && isOut === 0) return difference('better', `${words}: within what is expected again.`);
  if (wasOut === 0 && isOut > 0) return difference('worse', `${words}: outside what is expected.`);
  if (near) return difference('same', `${words}: as it was.`);
  if (wasOut > 0) {
    return isOut < wasOut
      ? difference('better', `${words}: less far outside.`)
      : difference('worse', `${words}: further outside.`);
  }
  if (better === 'inside') return difference('same', `${words}: both as expected.`);
  const rose = is.value > was.value;
  return rose === (better === 'higher')
    ? difference('better', `${words}.`)
    : difference('worse', `${words}: still within what is expected, but ${rose ? 'more' : 'less'} than when it came.`);
}

/** What a person found at Refit of what was kept as a photo, a take or words when the car came. */
function lookedAgain(check: Check, now: AnswerVerdict, says: string): Difference {
  if (check.group === 'complaint') {
    return now === 'fine'
      ? difference('better', 'The complaint is gone.')
      : difference('same', `The complaint is still there (${says}).`);
  }
  if (now === 'fine') return difference('same', 'Looked over again: as it came.');
  return difference('worse', `Not as it came (${says}).`);
}

const untold = new Set<AnswerVerdict>(['not-tried', 'cannot-tell']);

/**
 * The difference between the last answers of both stages.
 *
 * What the tool cannot see in two photos or hear in two takes it leaves to a person, who says at Refit what was found.
 */
export function differenceOf(
  check: Check,
  before: StageAnswer | null,
  now: StageAnswer | null,
  systemVoltageV: number | undefined,
): Difference {
  if (now === null || now.verdict === 'not-tried') return difference('not-tried', 'Not tried again yet.');
  if (check.group === 'marks' && before === null) {
    if (now.verdict === 'not-fitted') return difference('same', 'No such mark.');
    return difference('worse', `New since it came (${now.says}).`);
  }
  if (before === null || before.verdict === 'not-tried') {
    return difference('cannot-tell', `It was not tried when the car came; now ${now.says}.`);
  }
  const doubtful = [before, now].find(({ verdict }) => untold.has(verdict));
  if (doubtful !== undefined) return difference('cannot-tell', doubtful.why ?? `${before.says}, now ${now.says}.`);
  if (before.found.how === 'measured' && now.found.how === 'measured' && check.expected !== undefined) {
    return measuredDifference(check.expected, [before.found, now.found], systemVoltageV);
  }
  if (before.verdict === 'not-fitted' || now.verdict === 'not-fitted') {
    if (before.verdict === now.verdict) return difference('same', 'The car has none.');
    if (check.group === 'marks') return difference('better', 'The mark is gone.');
    return difference('cannot-tell', 'Only once was it said that the car has none: one of the two is wrong.');
  }
  if (now.verdict === 'kept') {
    const same = before.verdict === 'kept' && before.found.how === now.found.how;
    const what = same ? `Put both side by side (${before.says}; ${now.says})` : `Look at it (${now.says})`;
    return difference('cannot-tell', `${what} and say what you find.`);
  }
  if (before.verdict === 'kept') return lookedAgain(check, now.verdict, now.says);
  if (before.verdict === now.verdict) {
    return difference(
      'same',
      now.verdict === 'fine' ? 'Fine, as it came.' : `A fault that it came with (${now.says}).`,
    );
  }
  return now.verdict === 'fine'
    ? difference('better', 'It came with a fault and is fine now.')
    : difference('worse', `It was fine when it came (now ${now.says}).`);
}
