import { expect, test } from 'vitest';
import { levelSpread } from './spread.ts';

test('the spread is the standard deviation of the levels, also far from zero', () => {
  const spread = levelSpread(2);
  for (const level of [2, 4, 4, 4, 5, 5, 7, 9]) spread.feed([level, 1e6 + level]);
  const out = new Float32Array(2);
  spread.into(out);
  // Sum of squares about the mean is 32 over 8 values.
  expect(out[0]).toBeCloseTo(Math.sqrt(32 / 7), 5);
  expect(out[1]).toBeCloseTo(Math.sqrt(32 / 7), 4);
});

test('one moment has no spread', () => {
  const spread = levelSpread(1);
  spread.feed([-20]);
  const out = new Float32Array(1);
  spread.into(out);
  expect(out[0]).toBe(0);
});
