// Why a calculation gives no answer: six kinds, so that a script can tell a slip of the hand from a wish that cannot be met.
import { failure, type Issue, type Result } from './result.ts';

/**
 * What can be wrong, in the order in which it is looked for: over all inputs, nothing of a later kind is said before
 * everything of an earlier kind is in order.
 */
export const refusalCodes = [
  'missing',
  'not-a-number',
  'out-of-range',
  'contradiction',
  'no-solution',
  'unsupported',
] as const;

export type RefusalCode = (typeof refusalCodes)[number];

/** Why there is no answer. `where` names the input. */
export interface Refusal extends Issue {
  code: RefusalCode;
}

/** The answer is refused: `where` names the input, `mend` says what to change. */
export function refused(code: RefusalCode, where: string, message: string, mend: string): Result<never> {
  const refusal: Refusal = { code, message, where, mend };
  return failure(refusal);
}
