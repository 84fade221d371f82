import { expect, test } from 'vitest';
import { LEVEL_FLOOR_DB, type Section, sectionsLevelDb, sectionsResponse } from './sections.ts';

const halfSum: Section = { b0: 0.5, b1: 0.5, b2: 0, a1: 0, a2: 0 };

test('no section at all passes everything unchanged', () => {
  const { re, im } = sectionsResponse([], [0, 100, 24000], 48000);
  expect([...re]).toEqual([1, 1, 1]);
  expect([...im]).toEqual([0, 0, 0]);
});

test('the mean of two neighbours falls as the cosine of half the angle and lags half a sample', () => {
  const fHz = [0, 1000, 8000, 23000];
  const { re, im } = sectionsResponse([halfSum], fHz, 48000);
  fHz.forEach((f, i) => {
    const half = (Math.PI * f) / 48000;
    expect(re[i]).toBeCloseTo(Math.cos(half) ** 2, 14);
    expect(im[i]).toBeCloseTo(-Math.cos(half) * Math.sin(half), 14);
  });
});

test('sections in series multiply', () => {
  const one = sectionsResponse([halfSum], [5000], 48000);
  const two = sectionsResponse([halfSum, halfSum], [5000], 48000);
  expect(two.re[0]).toBeCloseTo(one.re[0] ** 2 - one.im[0] ** 2, 14);
  expect(two.im[0]).toBeCloseTo(2 * one.re[0] * one.im[0], 14);
});

test('a zero of the response is reported at the floor, not as minus infinity', () => {
  // The notch 1 + z^-2 is exactly zero at a quarter of the rate only on paper; 1 - z^-1 is at 0 Hz in doubles as well.
  const difference: Section = { b0: 1, b1: -1, b2: 0, a1: 0, a2: 0 };
  expect(sectionsLevelDb([difference], [0], 48000)[0]).toBe(LEVEL_FLOOR_DB);
});

test('an exact double zero at 0 Hz keeps twelve digits a thousandth of a hertz away', () => {
  // |1 - z^-1|^2 = 4 sin^2(w/2): the slow, exact twin.
  const twice: Section = { b0: 1, b1: -2, b2: 1, a1: 0, a2: 0 };
  const f = 0.001;
  const { re, im } = sectionsResponse([twice], [f], 192000);
  const want = 4 * Math.sin((Math.PI * f) / 192000) ** 2;
  expect(Math.hypot(re[0], im[0]) / want).toBeCloseTo(1, 12);
});

test('a frequency beyond half the rate or below zero is refused by name', () => {
  expect(() => sectionsResponse([], [24001], 48000)).toThrow('fHz must be 0..24000, got 24001');
  expect(() => sectionsResponse([], [-1], 48000)).toThrow(RangeError);
  expect(() => sectionsResponse([], [Number.NaN], 48000)).toThrow(RangeError);
  expect(() => sectionsResponse([], [1], 0)).toThrow('rateHz must be');
});

test('a section with a pole on or outside the unit circle is refused', () => {
  for (const [a1, a2] of [
    [-2, 1],
    [0, 1.01],
    [-1.9, 0.8],
    [1.9, 0.8],
    [Number.NaN, 0],
  ]) {
    expect(() => sectionsResponse([{ ...halfSum, a1, a2 }], [1], 48000)).toThrow(/section 0 must be finite and stable/);
  }
  expect(() => sectionsResponse([{ ...halfSum, b1: Number.POSITIVE_INFINITY }], [1], 48000)).toThrow(RangeError);
});
