// Every resistance that a set of coils can be wired to.
import { calculation } from '../../base/calculation.ts';
import { list, number, optional } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';

/** More parts than this have more wirings than anyone could look through. */
export const wiringPartsMax = 8;

/** Values nearer than this are one value that was reached in two ways. */
const sameWithin = 1e-12;

/** Rising, each value once. */
function distinct(values: number[]): Float64Array {
  const sorted = Float64Array.from(values).sort();
  let kept = 0;
  for (const value of sorted) {
    if (kept === 0 || value - sorted[kept - 1] > sameWithin * value) sorted[kept++] = value;
  }
  return sorted.slice(0, kept);
}

/**
 * All values of two-terminal series and parallel networks that use each part exactly once.
 *
 * A set is one part, or splits into two groups, each reduced to one value, joined in series or parallel. The first part
 * stays in the left group, so that each split is seen once; sets of the same parts are worked out once.
 */
function valuesOf(parts: readonly number[], known: Map<string, Float64Array>): Float64Array {
  if (parts.length === 1) return Float64Array.of(parts[0]);
  const key = parts.join(' ');
  const before = known.get(key);
  if (before !== undefined) return before;
  const found: number[] = [];
  const splits = new Set<string>();
  for (let mask = 0; mask < 2 ** (parts.length - 1) - 1; mask++) {
    const inLeft = (index: number) => index === 0 || ((mask >> (index - 1)) & 1) === 1;
    const left = parts.filter((_, index) => inLeft(index));
    const right = parts.filter((_, index) => !inLeft(index));
    const split = `${left.join(' ')}|${right.join(' ')}`;
    if (splits.has(split)) continue;
    splits.add(split);
    const rights = valuesOf(right, known);
    for (const a of valuesOf(left, known)) {
      for (const b of rights) found.push(a + b, 1 / (1 / a + 1 / b));
    }
  }
  const values = distinct(found);
  known.set(key, values);
  return values;
}

export interface WiringSet {
  /** Rising. */
  ohms: number[];
  count: number;
  /** Grids of equal parts, in which all work equally; for equal parts only. */
  balanced?: number[];
  /** Those at or above `minOhm`, when it is given. */
  allowed?: number[];
}

/**
 * Every load that a set of coils can be.
 *
 * @param coilOhms 1 to 8 parts, each above 0
 * @param minOhm   lowest load of the amplifier, 0 or more
 * @returns refused as `unsupported` above 8 parts
 * Source: recursion over set partitions; counts for equal parts are OEIS A048211: 1, 2, 4, 9, 22, 53, 131, 337.
 * @example wiringSet([4, 4]).value.ohms // 2, 8
 */
export function wiringSet(coilOhms: readonly number[], minOhm?: number): Result<WiringSet> {
  const parts = coilOhms.length;
  if (parts > wiringPartsMax) {
    const message = `${parts} parts have too many wirings to list; ${wiringPartsMax} are the most.`;
    return refused('unsupported', 'coilOhms', message, 'Join the coils of each driver first, or use groupSet.');
  }
  const sorted = [...coilOhms].sort((a, b) => a - b);
  const ohms = [...valuesOf(sorted, new Map())];
  const found: WiringSet = { ohms, count: ohms.length };
  if (minOhm !== undefined) found.allowed = ohms.filter((ohm) => ohm >= minOhm * (1 - 1e-9));
  const equal = sorted[parts - 1] - sorted[0] <= 1e-9 * sorted[0];
  if (equal) found.balanced = divisors(parts).map((series) => (sorted[0] * series * series) / parts);
  return success(found);
}

/** Divisors of a small whole number, rising. */
export function divisors(count: number): number[] {
  return Array.from({ length: count }, (_, i) => i + 1).filter((divisor) => count % divisor === 0);
}

export const wiringSetCalculation = calculation({
  name: 'wiringSet',
  about: 'every load that a set of coils can be wired to',
  caution: 'A load below what the amplifier takes may destroy it: check the minimum, bridged twice of it.',
  inputs: { coilOhms: list(number('ohm', { above: 0 })), minOhm: optional(number('ohm', { min: 0 }), 'no filter') },
  answer: ({ coilOhms, minOhm }) => wiringSet(coilOhms, minOhm),
});
