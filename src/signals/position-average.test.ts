import { expect, test } from 'vitest';
import { positionPowerMeanDb, positionSpreadDb, positionWeight } from './position-average.ts';

test('0 and 10 dB average to 7.40 dB by power', () => {
  expect(positionPowerMeanDb([[0], [10]])[0]).toBeCloseTo(10 * Math.log10(5.5), 12);
});

test('a single position is its own mean and has no spread to speak of', () => {
  expect([...positionPowerMeanDb([[3, -40]])].map((x) => Number(x.toFixed(9)))).toEqual([3, -40]);
  expect(() => positionSpreadDb([[3, -40]])).toThrow('positions must be 2 or more, got 1');
});

test('spread divides by n - 1: 1, 2, 3 dB spread by 1 dB, equal positions by none', () => {
  expect([
    ...positionSpreadDb([
      [1, 5],
      [2, 5],
      [3, 5],
    ]),
  ]).toEqual([1, 0]);
});

test('the weight is 1 without spread and a half at 3 dB', () => {
  expect([...positionWeight([0, 3, 6])]).toEqual([1, 0.5, 0.2]);
});

test('positions on different grids, or none, are refused', () => {
  expect(() => positionPowerMeanDb([])).toThrow('positions must be 1 or more, got 0');
  expect(() => positionPowerMeanDb([[1], [1, 2]])).toThrow('positions must stand on one grid, got 1 and 2 levels');
  expect(() => positionPowerMeanDb([[Number.NaN]])).toThrow('levelDb must be -1500..1500, got NaN');
  expect(() => positionWeight([-1])).toThrow('spreadDb');
});
