import { expect, test } from 'vitest';
import { weightingDb, weightingPower } from './weighting.ts';

test('A and C are the published tenths of a decibel at exact third-octave frequencies', () => {
  // IEC 61672-1:2013, table 3; exact base-ten frequencies.
  const published: [number, number, number][] = [
    [-20, -70.4, -14.3],
    [-15, -39.4, -3.0],
    [-10, -19.1, -0.3],
    [-5, -6.6, 0.0],
    [0, 0, 0],
    [4, 1.3, -0.3],
    [10, -2.5, -4.4],
    [13, -9.3, -11.2],
  ];
  for (const [index, a, c] of published) {
    const fHz = 1000 * 10 ** (index / 10);
    expect(Math.abs(weightingDb('A', fHz) - a)).toBeLessThan(0.06);
    expect(Math.abs(weightingDb('C', fHz) - c)).toBeLessThan(0.06);
  }
});

test('at 0 Hz the power is nothing, and no infinity leaves', () => {
  expect(weightingPower('A', 0)).toBe(0);
  expect(weightingPower('C', 0)).toBe(0);
  expect(weightingPower('Z', 0)).toBe(1);
  expect(Number.isFinite(weightingDb('A', 0.001))).toBe(true);
  expect(Number.isFinite(weightingDb('A', 1e7))).toBe(true);
});

test('a frequency or weighting that does not exist is refused', () => {
  expect(() => weightingDb('A', 0)).toThrow('fHz must be 0.001..10000000, got 0');
  expect(() => weightingPower('A', -1)).toThrow(RangeError);
  expect(() => weightingPower('B' as 'A', 100)).toThrow('weighting must be A, C or Z, got B');
});
