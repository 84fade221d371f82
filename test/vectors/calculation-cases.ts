// Cases of everyday calculations, and how close an answer comes to what a case expects.
import { expect, test } from 'vitest';
import type { Calculation } from '../../src/base/calculation.ts';

export interface CalculationCase {
  name: string;
  inputs: Record<string, unknown>;
  expected: Record<string, unknown>;
  tolerance: { rel: number; abs: number };
}

/** Where `got` differs from `want`, each with its path; results that are not asked for do not matter. */
export function differences(
  got: unknown,
  want: unknown,
  { rel, abs }: { rel: number; abs: number },
  at = '',
): string[] {
  if (typeof want === 'number') {
    const near = typeof got === 'number' && Math.abs(got - want) <= abs + rel * Math.abs(want);
    return near ? [] : [`${at}: ${got}, not ${want}`];
  }
  if (typeof want !== 'object' || want === null) return got === want ? [] : [`${at}: ${got}, not ${want}`];
  if (typeof got !== 'object' || got === null) return [`${at}: ${got}, not an object`];
  if (Array.isArray(want) && (!Array.isArray(got) || got.length !== want.length)) {
    return [`${at}: not a list of ${want.length}`];
  }
  return Object.entries(want).flatMap(([key, inner]) =>
    differences((got as Record<string, unknown>)[key], inner, { rel, abs }, at === '' ? key : `${at}.${key}`),
  );
}

/** A test for each case; every calculation must have one. */
export function testCases(calculations: readonly Calculation[], cases: CalculationCase[]): void {
  test.each(cases)('$name', ({ inputs: { calc, ...inputs }, expected, tolerance }) => {
    const found = calculations.find(({ name }) => name === calc);
    if (found === undefined) throw new Error(`no calculation ${String(calc)}`);
    const answer = found.run(inputs);
    const got = answer.ok ? answer.value : { error: answer.issues[0].code };
    expect(differences(got, expected, tolerance)).toEqual([]);
  });

  test('every calculation has a case', () => {
    const called = new Set(cases.map(({ inputs }) => inputs.calc));
    expect(calculations.map(({ name }) => name).filter((name) => !called.has(name))).toEqual([]);
  });
}
