// Polarity at the seat, 20 dB over the noise in the driver's band; bench/polarity-study.ts has the whole table.
import { expect, test } from 'vitest';
import { polarityCases, polarityOutcome } from './cases.ts';

const outcomes = Array.from({ length: 28 }, (_, index) => polarityCases(index)).map((one) => ({
  ...one,
  ...polarityOutcome(one),
}));
const plain = outcomes.filter(({ allPass }) => !allPass);

test('is never told wrongly with confidence, not even where a hidden all-pass turns the phase round', () => {
  expect(new Set(outcomes.map(({ kind, allPass }) => `${kind} ${allPass}`)).size).toBe(8);
  const told = outcomes.filter(({ sign }) => sign !== 0);
  expect(told.filter(({ sign, truth, confidence }) => sign !== truth && confidence >= 0.8)).toEqual([]);
});

test('is told rightly of all but one in twenty without an all-pass, reflections as loud as the sound included', () => {
  expect(plain.some(({ reflections }) => reflections === 'hard')).toBe(true);
  expect(plain.filter(({ sign, truth }) => sign !== truth).length).toBeLessThanOrEqual(plain.length / 20);
});

test('is always told of drivers that face the listener', () => {
  const facing = plain.filter(({ reflections, kind }) => reflections === 'ordinary' && kind !== 'midbass');
  expect(facing.map(({ sign }) => sign)).toEqual(facing.map(({ truth }) => truth));
  expect(facing.length).toBeGreaterThanOrEqual(9);
});
