// Polarity at the seat, 20 dB over the noise in the driver's band; bench/polarity-study.ts has the whole table.
import { expect, test } from 'vitest';
import { polarityCases, polarityOutcome } from './cases.ts';

const cases = Array.from({ length: 28 }, (_, index) => polarityCases(index)).filter(
  ({ reflections, allPass }) => reflections === 'ordinary' && !allPass,
);

test('is not told wrongly with confidence, and always told of tweeters and mids that face the listener', () => {
  expect(new Set(cases.map(({ kind }) => kind)).size).toBe(4);
  const outcomes = cases.map((one) => ({ ...one, ...polarityOutcome(one) }));
  const told = outcomes.filter(({ sign }) => sign !== 0);
  expect(told.filter(({ sign, truth, confidence }) => sign !== truth && confidence >= 0.8)).toEqual([]);
  const small = outcomes.filter(({ kind }) => kind === 'tweeter' || kind === 'mid');
  expect(small.map(({ sign }) => sign)).toEqual(small.map(({ truth }) => truth));
  expect(small.length).toBeGreaterThanOrEqual(7);
});
