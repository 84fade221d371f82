import { expect, test } from 'vitest';
import { levelCorrectionDb } from './level-correction.ts';

test('without calibration nothing is added, at any frequency', () => {
  const correction = levelCorrectionDb({}, -12);
  expect([20, 1000, 20_000].map(correction)).toEqual([0, 0, 0]);
});

test('with full scale at 120 dB, a sine played at -12 dBFS and recorded as it was played reads 105 dB', () => {
  // A full-scale sine has half the power of a full-scale square: 3.01 dB less.
  expect(levelCorrectionDb({ fullScaleSplDb: 120 }, -12)(1000)).toBeCloseTo(120 - 12 - 10 * Math.log10(2), 4);
});

test('what the microphone hears too loud is taken off, between rows by the logarithm of frequency', () => {
  const microphone = { fHz: [100, 10_000], deviationDb: [2, -4] };
  const correction = levelCorrectionDb({ microphone }, -12);
  expect(correction(100)).toBeCloseTo(-2, 12);
  expect(correction(1000)).toBeCloseTo(1, 12);
  expect(correction(10_000)).toBeCloseTo(4, 12);
  // Outside the end values are held.
  expect(correction(20)).toBeCloseTo(-2, 12);
  expect(correction(20_000)).toBeCloseTo(4, 12);
  expect(levelCorrectionDb({ microphone, fullScaleSplDb: 100 }, 0)(100)).toBeCloseTo(100 - 3.0103 - 2, 3);
});
