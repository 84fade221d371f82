import { describe, expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { recordingFromArrays } from '../signals/recording.ts';
import { densityBetween, type NoiseDensity, noiseDensity, type Stretch } from './noise-density.ts';

const RATE_HZ = 48_000;
const RMS = 0.01;
/** White noise of variance s^2 has the two-sided density s^2 / rate at every frequency. */
const WHITE = RMS ** 2 / RATE_HZ;
const white = (length: number, seed = 1): Float64Array => Float64Array.from({ length }, (_, n) => RMS * gauss(seed, n));

function densityOf(samples: Float64Array, stretches: Stretch[] = [{ start: 0, length: samples.length }]): NoiseDensity {
  const density = noiseDensity(recordingFromArrays([samples], RATE_HZ), 0, stretches, RATE_HZ);
  if (!density) throw new Error('no density');
  return density;
}
const overWhiteDb = (density: NoiseDensity, low: number, high: number): number =>
  10 * Math.log10(densityBetween(density, low, high) / WHITE);

describe('the density of white noise', () => {
  const density = densityOf(white(10 * RATE_HZ));

  test('is its variance over its rate, at all frequencies', () => {
    expect(Math.abs(overWhiteDb(density, 20, 23_900))).toBeLessThan(0.03);
    // Random error of a band of width B in 10 s: 4.34 / sqrt(10 B) dB; five of them.
    for (const [low, high] of [
      [50, 150],
      [900, 1100],
      [10_000, 12_000],
    ]) {
      expect(Math.abs(overWhiteDb(density, low, high))).toBeLessThan((5 * 4.34) / Math.sqrt(10 * (high - low)));
    }
  });

  test('of a quarter of the time is the same, less certain', () => {
    const [start, length] = [3 * RATE_HZ, 2 * RATE_HZ];
    expect(Math.abs(overWhiteDb(densityOf(white(10 * RATE_HZ), [{ start, length }]), 20, 23_900))).toBeLessThan(0.1);
  });

  test('adds up to the variance', () => {
    const { density: bins, size, sum, durationS } = density;
    const total = bins.reduce((all, value, k) => all + (k === 0 || k === size / 2 ? 1 : 2) * value, 0);
    expect((total * RATE_HZ) / size).toBeCloseTo(RMS ** 2, 6);
    expect(sum[bins.length]).toBeCloseTo(
      bins.reduce((all, value) => all + value, 0),
      12,
    );
    expect(durationS).toBe(10);
  });
});

describe('what is not noise', () => {
  test('an offset from zero does not count', () => {
    const shifted = white(4 * RATE_HZ).map((x) => x + 0.5);
    expect(Math.abs(overWhiteDb(densityOf(shifted), 5, 100))).toBeLessThan(1);
  });

  test('what sounds outside the stretches does not count', () => {
    const samples = white(6 * RATE_HZ);
    samples.fill(0.9, 2 * RATE_HZ, 4 * RATE_HZ);
    const stretches = [
      { start: 0, length: 2 * RATE_HZ },
      { start: 4 * RATE_HZ, length: 2 * RATE_HZ },
    ];
    const density = densityOf(samples, stretches);
    expect(Math.abs(overWhiteDb(density, 20, 20_000))).toBeLessThan(0.1);
    expect(density.durationS).toBe(4);
  });
});

describe('a stretch', () => {
  const recording = recordingFromArrays([white(RATE_HZ)], RATE_HZ);
  const of = (length: number) => noiseDensity(recording, 0, [{ start: 100, length }], RATE_HZ);

  test('of 50 ms says something, one sample less nothing', () => {
    expect(of(0.05 * RATE_HZ)?.size).toBe(2048);
    expect(of(0.05 * RATE_HZ - 1)).toBeNull();
  });

  test('of no length, and no stretch at all, say nothing', () => {
    expect(of(0)).toBeNull();
    expect(noiseDensity(recording, 0, [], RATE_HZ)).toBeNull();
  });

  test('too short for the blocks of the longest is left out, and not counted', () => {
    const both = noiseDensity(
      recording,
      0,
      [
        { start: 0, length: 0.8 * RATE_HZ },
        { start: 0.9 * RATE_HZ, length: 0.06 * RATE_HZ },
      ],
      RATE_HZ,
    );
    expect(both?.durationS).toBeCloseTo(0.8, 12);
  });
});

describe('the density between two frequencies', () => {
  // One bin in twenty-five holds all the power.
  const size = 64;
  const density = new Float64Array(33);
  density[10] = 8;
  const sum = new Float64Array(34);
  density.forEach((value, k) => {
    sum[k + 1] = sum[k] + value;
  });
  const comb = { rateHz: 6400, size, density, sum, durationS: 1 };

  test('shares the bins at its ends: bin 10 owns 950 to 1050 Hz', () => {
    expect(densityBetween(comb, 950, 1050)).toBeCloseTo(8, 12);
    expect(densityBetween(comb, 850, 1050)).toBeCloseTo(4, 12);
    expect(densityBetween(comb, 1000, 1200)).toBeCloseTo(2, 12);
    expect(densityBetween(comb, 1060, 2000)).toBe(0);
  });

  test('is a bin wide at least, and finite wherever it is asked', () => {
    expect(densityBetween(comb, 1000, 1000)).toBeCloseTo(8, 12);
    for (const [low, high] of [
      [0, 0],
      [0, 10],
      [3150, 3250],
      [5000, 9000],
    ]) {
      expect(Number.isFinite(densityBetween(comb, low, high))).toBe(true);
    }
  });
});
