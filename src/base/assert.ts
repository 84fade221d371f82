// Assertions: our own mistakes, said with name, value and rule.

/**
 * Throws unless `value` is a finite number in `[min, max]`.
 *
 * @throws RangeError naming the argument, its range and the value: the caller's mistake
 */
export function assertRange(name: string, value: number, min: number, max: number): void {
  if (!(value >= min && value <= max)) throw new RangeError(`${name} must be ${min}..${max}, got ${value}`);
}

/** Throws an Error with `rule` unless `condition` holds. */
export function assert(condition: boolean, rule: string): asserts condition {
  if (!condition) throw new Error(rule);
}
