import { describe, expect, it } from 'vitest';
import { resampled } from './resample.ts';

/** Largest error of a resampled sine against the sine itself, dB re its amplitude, away from the ends. */
function errorDb(cyclesPerSample: number, step: number, first: number): number {
  const signal = Float64Array.from({ length: 4000 }, (_, n) => Math.sin(2 * Math.PI * cyclesPerSample * n + 0.3));
  const count = Math.floor(3500 / step);
  const got = resampled(signal, first, step, count);
  let worst = 0;
  for (let i = Math.ceil(200 / step); i < count - 200 / step; i++) {
    worst = Math.max(worst, Math.abs(got[i] - Math.sin(2 * Math.PI * cyclesPerSample * (first + step * i) + 0.3)));
  }
  return 20 * Math.log10(worst);
}

describe('resampled', () => {
  it('follows a sine at a clock 200 ppm apart', () => {
    expect(errorDb(0.01, 1.0002, 0.37)).toBeLessThan(-95);
    expect(errorDb(0.3, 1.0002, 0.37)).toBeLessThan(-95);
    expect(errorDb(0.44, 0.9998, 0.91)).toBeLessThan(-85);
  });
  it('goes from 44.1 to 48 kHz', () => {
    expect(errorDb(0.2, 44.1 / 48, 0)).toBeLessThan(-95);
  });
  it('goes down to half the rate and keeps what lies below its half', () => {
    expect(errorDb(0.1, 2, 0.5)).toBeLessThan(-95);
  });
  it('takes away what the lower rate cannot hold', () => {
    const signal = Float64Array.from({ length: 4000 }, (_, n) => Math.sin(2 * Math.PI * 0.4 * n));
    const got = resampled(signal, 0, 2, 1900).subarray(100, 1800);
    expect(20 * Math.log10(Math.max(...got.map(Math.abs)))).toBeLessThan(-85);
  });
  it('gives the samples themselves at whole positions', () => {
    const signal = Float64Array.from({ length: 300 }, (_, n) => Math.cos(n * n));
    const got = resampled(signal, 100, 1, 50);
    for (let i = 0; i < 50; i++) expect(got[i]).toBeCloseTo(signal[100 + i], 12);
  });
  it('refuses a step it has no kernel for', () => {
    expect(() => resampled(new Float64Array(10), 0, 0, 5)).toThrow(RangeError);
  });
});
