import { describe, expect, test } from 'vitest';
import { meanPower, powerCurve } from './power-curve.ts';

/** Power 0, 1, 4, 9 ... at 0, 10, 20, 30 ... Hz. */
const square = powerCurve({ re: new Float64Array(201).map((_, k) => k), im: new Float64Array(201) }, 10);
const flat = powerCurve({ re: new Float64Array(101).fill(3), im: new Float64Array(101).fill(4) }, 10);

describe('mean power', () => {
  test('of a flat spectrum is its power, however wide the mean', () => {
    for (const octaves of [0, 1 / 48, 1 / 3, 2]) expect(meanPower(flat, 200, octaves)).toBeCloseTo(25, 9);
  });

  test('of no width is the power on the straight line between two bins', () => {
    expect(meanPower(square, 20, 0)).toBe(4);
    expect(meanPower(square, 25, 0)).toBeCloseTo((4 + 9) / 2, 12);
  });

  test('is the area under those lines over the width', () => {
    // From 10 to 40 Hz: trapezoids (1 + 4) / 2 + (4 + 9) / 2 + (9 + 16) / 2 over three bins.
    expect(meanPower(square, 20, 2)).toBeCloseTo((2.5 + 6.5 + 12.5) / 3, 12);
    // Within one bin: the line's value half way between the ends.
    const [low, high] = [20.5, 29.5];
    const width = Math.log2(high / low);
    expect(meanPower(square, Math.sqrt(low * high), width)).toBeCloseTo(4 + 5 * 0.5, 9);
  });

  test('does not step where its ends pass from bin to bin', () => {
    let before = meanPower(square, 100, 0.1);
    for (let fHz = 100.01; fHz < 140; fHz += 0.01) {
      const now = meanPower(square, fHz, 0.1);
      expect(Math.abs(now - before)).toBeLessThan(0.05);
      before = now;
    }
  });

  test('is finite at the ends of the spectrum and beyond', () => {
    for (const fHz of [0, 1e-3, 2000, 1e6]) {
      for (const octaves of [0, 1 / 12]) expect(Number.isFinite(meanPower(square, fHz, octaves))).toBe(true);
    }
    expect(meanPower(square, 2000, 0)).toBe(40_000);
  });
});

test('a power curve holds squared magnitudes and their running integral', () => {
  const { power, integral } = powerCurve({ re: Float64Array.of(0, 3, 1), im: Float64Array.of(0, 4, 0) }, 1);
  expect([...power]).toEqual([0, 25, 1]);
  expect([...integral]).toEqual([0, 12.5, 25.5]);
});
