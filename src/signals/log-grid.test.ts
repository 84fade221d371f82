import { expect, test } from 'vitest';
import { logGrid, onLogGrid } from './log-grid.ts';

test('the grid runs through 1 kHz and keeps limits that lie on it', () => {
  expect([...logGrid({ fromHz: 500, toHz: 2000, pointsPerOctave: 1 })]).toEqual([500, 1000, 2000]);
  const fine = logGrid({ fromHz: 20, toHz: 20000, pointsPerOctave: 48 });
  expect(fine.includes(1000)).toBe(true);
  expect(fine[0]).toBeGreaterThanOrEqual(20);
  expect(fine[0]).toBeLessThan(20 * 2 ** (1 / 48));
  expect(fine[fine.length - 1]).toBeLessThanOrEqual(20000);
  expect(fine[fine.length - 1]).toBeGreaterThan(20000 / 2 ** (1 / 48));
  expect(logGrid({ fromHz: 1001, toHz: 1002, pointsPerOctave: 3 })).toHaveLength(0);
});

test('a straight line comes onto the grid as the middle of each cell', () => {
  const line = Float64Array.from({ length: 1001 }, (_, k) => 3 + 0.5 * k);
  const gridHz = [1, 4, 77.7, 500];
  const got = onLogGrid(line, 1, gridHz, 3);
  gridHz.forEach((f, i) => {
    const middle = (f * (2 ** (1 / 6) + 2 ** (-1 / 6))) / 2;
    expect(got[i]).toBeCloseTo(3 + 0.5 * middle, 10);
  });
});

test('between sparse bins it interpolates, and a cell over a kink takes both sides', () => {
  // |x - 10| over 10/r .. 10 r in bins of 1: mean of the two triangles.
  const kink = Float64Array.from({ length: 21 }, (_, k) => Math.abs(k - 10));
  const r = 2 ** (1 / 24);
  const [low, high] = [10 / r, 10 * r];
  const want = ((10 - low) ** 2 + (high - 10) ** 2) / 2 / (high - low);
  expect(onLogGrid(kink, 1, [10], 12)[0]).toBeCloseTo(want, 12);
});

test('a curve 200 dB below the rest keeps its digits', () => {
  const power = Float64Array.from({ length: 20001 }, (_, k) => (k < 10000 ? 1e10 : 1e-10));
  expect(onLogGrid(power, 1, [15000], 48)[0] / 1e-10).toBeCloseTo(1, 12);
});

test('cells at the ends are clipped to the bins there are', () => {
  const line = Float64Array.from({ length: 11 }, (_, k) => k);
  const low = 10 * 2 ** -0.5;
  expect(onLogGrid(line, 1, [10], 1)[0]).toBeCloseTo((low + 10) / 2, 12);
  expect(onLogGrid(line, 1, [0], 1)[0]).toBe(0);
  expect(onLogGrid([2, 5], 1, [1], 960)[0]).toBeCloseTo(5, 2);
});

test('one step outside is refused', () => {
  expect(() => onLogGrid([1, 2, 3], 10, [20.1], 3)).toThrow(/gridHz must be 0..20\.?\d*, got 20.1/);
  expect(() => onLogGrid([1], 10, [1], 3)).toThrow('values must hold 2 bins or more, got 1');
  expect(() => onLogGrid([1, Number.NaN], 10, [9], 3)).toThrow('values must be finite');
  expect(() => onLogGrid([1, 2], 0, [1], 3)).toThrow('binHz');
  expect(() => logGrid({ fromHz: 0, toHz: 100, pointsPerOctave: 3 })).toThrow('fromHz');
  expect(() => logGrid({ fromHz: 1, toHz: 100, pointsPerOctave: 2.5 })).toThrow(
    'pointsPerOctave must be a whole number',
  );
});
