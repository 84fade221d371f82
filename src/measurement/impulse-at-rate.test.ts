import { describe, expect, test } from 'vitest';
import { impulseAtRate } from './impulse-at-rate.ts';
import type { SweepImpulse } from './sweep-impulse.ts';

const RATE_HZ = 44_103.7;
const SIZE = 65_536;

/** A band-limited pulse (Gaussian, 3 kHz wide) at `atS` and, half as high, turned over, 7 ms later; on a circle. */
function impulse(atS: number, tailS = 0.5): SweepImpulse {
  const samples = new Float64Array(SIZE);
  const sigmaS = 1 / (2 * Math.PI * 3000);
  for (let n = -4000; n < 30_000; n++) {
    const t = n / RATE_HZ - atS;
    samples[(n + SIZE) % SIZE] =
      Math.exp(-0.5 * (t / sigmaS) ** 2) - 0.5 * Math.exp(-0.5 * ((t - 0.007) / sigmaS) ** 2);
  }
  const shape = { fromHz: 20, toHz: 20_000, durationS: 4, levelDbfs: 0 };
  const played = { binHz: 1, power: new Float64Array(2), integral: new Float64Array(2) };
  return { shape, rateHz: RATE_HZ, size: SIZE, samples, played, toHz: 20_000, tailS };
}

describe('an impulse response at the rate of a file', () => {
  test.each([0.0123, 0, -0.004])('has its arrival, %f s after time zero, on the sample it names', (arrivalS) => {
    const { samples, arrivalIndex, rateHz } = impulseAtRate(impulse(arrivalS), arrivalS, 48_000);
    expect(rateHz).toBe(48_000);
    expect(arrivalIndex).toBe(960);
    expect(samples[arrivalIndex]).toBeCloseTo(1, 3);
    expect(samples[arrivalIndex + 336]).toBeCloseTo(-0.5, 3);
    // Symmetrical about the arrival: it falls on a sample, not beside one.
    expect(samples[arrivalIndex - 2]).toBeCloseTo(samples[arrivalIndex + 2], 3);
  });

  test('holds 20 ms before and 300 ms after, with soft ends', () => {
    const { samples } = impulseAtRate(impulse(0.01), 0.01, 48_000);
    expect(Math.abs(samples.length - 0.32 * 48_000)).toBeLessThanOrEqual(1);
    expect(Math.abs(samples[0])).toBeLessThan(1e-6);
    expect(Math.abs(samples[samples.length - 1])).toBeLessThan(1e-6);
  });

  test('ends with the sound that was recorded', () => {
    const { samples } = impulseAtRate(impulse(0.01, 0.1), 0.01, 48_000);
    expect(Math.abs(samples.length - 0.12 * 48_000)).toBeLessThanOrEqual(1);
  });

  test('keeps the shape of the wave at a lower rate', () => {
    const { samples, arrivalIndex } = impulseAtRate(impulse(0.01), 0.01, 32_000);
    expect(samples[arrivalIndex]).toBeCloseTo(1, 2);
    const sigmaS = 1 / (2 * Math.PI * 3000);
    expect(samples[arrivalIndex + 1]).toBeCloseTo(Math.exp(-0.5 * (1 / 32_000 / sigmaS) ** 2), 2);
  });
});
