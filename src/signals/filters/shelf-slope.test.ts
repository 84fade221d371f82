import { expect, test } from 'vitest';
import { shelfQ, shelfSlope } from './shelf-slope.ts';

test('slope 1 is q 0.7071 at any gain', () => {
  for (const gainDb of [-12, 0, 3, 20]) expect(shelfQ(1, gainDb)).toBeCloseTo(Math.SQRT1_2, 12);
});

test('slope and q convert there and back', () => {
  for (const gainDb of [-9, 2, 15]) {
    for (const slope of [0.1, 0.5, 1, 1.2]) expect(shelfSlope(shelfQ(slope, gainDb), gainDb)).toBeCloseTo(slope, 10);
  }
});

test('a slope steeper than the gain allows is refused with the limit', () => {
  // A = 10^(12/40) gives A + 1/A = 2.4965; the root vanishes at 1 / (1 - 2 / 2.4965) = 5.03.
  expect(() => shelfQ(5, 12)).not.toThrow();
  expect(() => shelfQ(5.1, 12)).toThrow(/slope must be below 5.0\d+ at 12 dB, got 5.1/);
  expect(() => shelfQ(0, 12)).toThrow('slope must be 0.001..100, got 0');
  expect(() => shelfQ(1, 61)).toThrow('gainDb');
  expect(() => shelfSlope(0, 6)).toThrow('q must be');
});
