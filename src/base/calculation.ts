// A calculation by name: inputs from outside, checked in a fixed order, then a formula on typed values. It only checks and
// names; the formulas are plain functions beside it, which rules and screens call without this layer.
import type { Input, Values } from './calculation-inputs.ts';
import { type Refusal, refusalCodes, refused } from './refusal.ts';
import { failure, type Issue, type Result, success } from './result.ts';

/** A calculation as the command line and the app see it. */
export interface Calculation {
  name: string;
  /** One line: what comes out. */
  about: string;
  inputs: Record<string, Input<unknown>>;
  /** What must be heeded where this number is used with the hands. */
  caution?: string;
  /** Checks `given` and works it out; never throws for what stands in `given`. */
  run: (given: unknown) => Result<Record<string, unknown>>;
}

/** Path of the first number in `value` that is not finite, or null. */
function notFiniteIn(value: unknown, path: string): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : path;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, inner] of Object.entries(value)) {
    const found = notFiniteIn(inner, path === '' ? key : `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}

/** More complaints than this help nobody. */
const faultsMax = 20;

/** The faults, those that are looked for first before the others, and no more than help. */
function inOrder(faults: Refusal[]): Issue[] {
  const rank = ({ code }: Refusal) => refusalCodes.indexOf(code);
  return [...faults].sort((a, b) => rank(a) - rank(b)).slice(0, faultsMax);
}

/**
 * Makes a calculation of a declaration and a formula.
 *
 * @param declaration.inputs what goes in, by name; see `calculation-inputs.ts`
 * @param declaration.eitherOf groups of inputs of which at least one must be given
 * @param declaration.alsoMissing what only the inputs together show to be missing; called even when single values are wrong, so
 *   it may look at what is there and not calculate
 * @param declaration.answer the formula on checked values; it refuses with `refused(...)` what only shows there. Results
 *   are named with their unit. A result that overflows is refused as `out-of-range`.
 */
export function calculation<I extends Record<string, Input<unknown>>>(declaration: {
  name: string;
  about: string;
  inputs: I;
  caution?: string;
  eitherOf?: (keyof I & string)[][];
  alsoMissing?: (values: Values<I>) => Refusal[];
  answer: (values: Values<I>) => Result<object>;
}): Calculation {
  const { name, about, inputs, caution, answer } = declaration;
  const run = (given: unknown): Result<Record<string, unknown>> => {
    if (typeof given !== 'object' || given === null || Array.isArray(given)) {
      return refused('missing', 'inputs', `${name} needs its inputs as an object.`, 'Give {"name": value, ...}.');
    }
    const faults: Refusal[] = [];
    const values: Record<string, unknown> = {};
    for (const [key, input] of Object.entries(inputs)) {
      const value = Object.hasOwn(given, key) ? (given as Record<string, unknown>)[key] : undefined;
      values[key] = input.read(value, key, (fault) => faults.push(fault));
    }
    for (const group of declaration.eitherOf ?? []) {
      const isGiven = (key: string) => Object.hasOwn(given, key) && (given as Record<string, unknown>)[key] !== null;
      if (!group.some(isGiven)) {
        const [first, ...others] = group;
        const message = `${first}${others.map((other) => ` or ${other}`).join('')} is missing.`;
        faults.push({ code: 'missing', message, where: first, mend: `Give ${first}: ${inputs[first].form}.` });
      }
    }
    faults.push(...(declaration.alsoMissing?.(values as Values<I>) ?? []).slice(0, faultsMax));
    if (faults.length > 0) return failure(...inOrder(faults));
    const found = answer(values as Values<I>);
    if (!found.ok) return found;
    const overflow = notFiniteIn(found.value, '');
    if (overflow !== null) {
      const message = `${overflow} is too large or too small to be worked out from these inputs.`;
      return refused('out-of-range', overflow, message, 'Give numbers of an everyday size.');
    }
    return success({ ...found.value });
  };
  return { name, about, inputs, ...(caution === undefined ? {} : { caution }), run };
}
