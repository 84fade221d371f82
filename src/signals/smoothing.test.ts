import { expect, test } from 'vitest';
import { uniform } from '../base/random.ts';
import {
  equaliserSmoothingOctaves,
  type SmoothingWindow,
  smoothedComplex,
  smoothedDbMean,
  smoothedLevelDb,
  smoothedPower,
} from './smoothing.ts';

/** The slow, exact twin: overlap of each cell with each window, one by one. */
function slowMeans(values: ArrayLike<number>, { pointsPerOctave, widthOctaves }: SmoothingWindow): number[] {
  return Array.from(values, (_, k) => {
    const width = typeof widthOctaves === 'number' ? widthOctaves : widthOctaves[k];
    const half = Math.max(0.5, (width * pointsPerOctave) / 2);
    let sum = 0;
    let weight = 0;
    for (let j = 0; j < values.length; j++) {
      const overlap = Math.min(j + 1, k + 0.5 + half) - Math.max(j, k + 0.5 - half);
      if (overlap <= 0) continue;
      sum += overlap * values[j];
      weight += overlap;
    }
    return sum / weight;
  });
}

test('the running sum gives what the direct sum gives, for any width and for widths that change', () => {
  const values = Float64Array.from({ length: 200 }, (_, k) => uniform(7, k));
  const varying = Float64Array.from({ length: 200 }, (_, k) => k / 100);
  for (const widthOctaves of [0, 1 / 48, 1 / 24, 0.1, 1 / 3, 2, 10, varying]) {
    const window = { pointsPerOctave: 24, widthOctaves };
    const want = slowMeans(values, window);
    smoothedPower(values, window).forEach((value, k) => {
      expect(value).toBeCloseTo(want[k], 13);
    });
  }
});

test('treble 200 dB above the bass leaves the bass its digits', () => {
  const levelDb = Float64Array.from({ length: 300 }, (_, k) => (k < 150 ? 100 : -100) + 3 * uniform(1, k));
  const powers = levelDb.map((db) => 10 ** (db / 10));
  const window = { pointsPerOctave: 48, widthOctaves: 1 / 6 };
  const want = slowMeans(powers, window);
  smoothedLevelDb(levelDb, window).forEach((db, k) => {
    expect(Math.abs(db - 10 * Math.log10(want[k]))).toBeLessThan(1e-6);
  });
});

test('a level that drowns altogether still comes out finite and within the range of the values', () => {
  const levelDb = Float64Array.from({ length: 100 }, (_, k) => (k < 50 ? 1000 : -1000));
  for (const db of smoothedLevelDb(levelDb, { pointsPerOctave: 12, widthOctaves: 1 / 3 })) {
    expect(db).toBeGreaterThanOrEqual(-1000.001);
    expect(db).toBeLessThanOrEqual(1000.001);
  }
});

test('decibels averaged lie below power averaged: a comb of 0 and -20 dB gives -10 and -2.97', () => {
  const comb = Float64Array.from({ length: 96 }, (_, k) => (k % 2 === 0 ? 0 : -20));
  const window = { pointsPerOctave: 24, widthOctaves: 1 };
  expect(smoothedDbMean(comb, window)[48]).toBeCloseTo(-10, 0);
  expect(smoothedLevelDb(comb, window)[48]).toBeCloseTo(10 * Math.log10(0.505), 1);
});

test('complex smoothing removes what turns within the window and keeps what stands', () => {
  const n = 240;
  const turning = { re: new Float64Array(n), im: new Float64Array(n) };
  for (let k = 0; k < n; k++) {
    // Direct sound 1, and a reflection as strong that turns once in 6 points.
    turning.re[k] = 1 + Math.cos((2 * Math.PI * k) / 6);
    turning.im[k] = Math.sin((2 * Math.PI * k) / 6);
  }
  const { re, im } = smoothedComplex(turning, { pointsPerOctave: 24, widthOctaves: 1 / 2 });
  expect(re[120]).toBeCloseTo(1, 12);
  expect(im[120]).toBeCloseTo(0, 12);
});

test('the example of the documentation: windows cut at the ends are divided by what is left', () => {
  expect([...smoothedPower([0, 3, 0], { pointsPerOctave: 3, widthOctaves: 1 })]).toEqual([1.5, 1, 1.5]);
});

test('empty stays empty and arguments stay as they were', () => {
  expect(smoothedPower([], { pointsPerOctave: 3, widthOctaves: 1 })).toHaveLength(0);
  const values = new Float64Array([1, 2, 3]);
  smoothedLevelDb(values, { pointsPerOctave: 3, widthOctaves: 1 });
  expect([...values]).toEqual([1, 2, 3]);
});

test('the equaliser rule is 1/12 octave up to 150 Hz, 1/3 from 1 kHz and the middle in between', () => {
  const [low, at150, middle, at1k, high] = equaliserSmoothingOctaves([20, 150, Math.sqrt(150 * 1000), 1000, 15000]);
  expect([low, at150]).toEqual([1 / 12, 1 / 12]);
  expect(middle).toBeCloseTo((1 / 12 + 1 / 3) / 2, 12);
  expect(at1k).toBeCloseTo(1 / 3, 12);
  expect(high).toBeCloseTo(1 / 3, 12);
});

test('what cannot be smoothed is refused', () => {
  const window = { pointsPerOctave: 24, widthOctaves: 1 };
  expect(() => smoothedPower([1, Number.NaN], window)).toThrow('values must be finite');
  expect(() => smoothedDbMean([Number.POSITIVE_INFINITY], window)).toThrow('values must be finite');
  expect(() => smoothedLevelDb([Number.NaN], window)).toThrow('levelDb must be');
  expect(() => smoothedPower([1], { ...window, widthOctaves: 11 })).toThrow('widthOctaves must be 0..10, got 11');
  expect(() => smoothedPower([1], { ...window, widthOctaves: [1, 1] })).toThrow('widthOctaves must be as long');
  expect(() => smoothedPower([1], { ...window, pointsPerOctave: 0 })).toThrow('pointsPerOctave');
  expect(() => smoothedComplex({ re: new Float64Array(2), im: new Float64Array(3) }, window)).toThrow('equally long');
  expect(() => equaliserSmoothingOctaves([0])).toThrow('fHz');
});
