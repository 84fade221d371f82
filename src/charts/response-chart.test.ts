import { describe, expect, test } from 'vitest';
import { frequencyAxis } from './frequency-axis.ts';
import { responseChart } from './response-chart.ts';

const fHz = Array.from({ length: 121 }, (_, index) => 20 * 10 ** (index / 40));
const chart = {
  fHz,
  levelDb: fHz.map((f) => (f > 10_000 ? null : -20)),
  valid: fHz.map((f) => f >= 100),
  sentence: 'The door plays from 80 Hz & up.',
  state: 'Left door, 1/12 octave.',
  marksHz: [1000],
  widthPx: 688,
  heightPx: 320,
};

describe('frequencyAxis', () => {
  test('lays decades at equal distances', () => {
    const { xOf } = frequencyAxis(20, 20_000, 600);
    expect([20, 200, 2000, 20_000].map(xOf).map(Math.round)).toEqual([0, 200, 400, 600]);
  });

  test('has a line for each step of 1 to 9 and the unit on the first label alone', () => {
    const { lines, labels } = frequencyAxis(20, 2000, 600);
    expect(lines.map(Math.round)).toEqual([
      ...[20, 30, 40, 50, 60, 70, 80, 90],
      ...[100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 2000],
    ]);
    expect(labels.map(({ text }) => text)).toEqual(['20 Hz', '50', '100', '200', '500', '1k', '2k']);
  });

  test('thins its labels where there is no room', () => {
    expect(frequencyAxis(20, 20_000, 429).labels.map(({ text }) => text)).toEqual(['20 Hz', '100', '1k', '10k']);
  });

  test.each([
    [0, 100, 600],
    [100, 100, 600],
    [20, 100, 0],
  ])('refuses %d..%d Hz over %d px', (from, to, width) => {
    expect(() => frequencyAxis(from, to, width)).toThrow(RangeError);
  });
});

describe('responseChart', () => {
  const svg = responseChart(chart);

  test('draws the level where the axis says it is: -20 dB a fifth down from -10', () => {
    // 600 x 200 px of plot from -10 to -60 dB: 4 px a decibel.
    expect(svg).toContain('M0 40L5 40L10 40');
  });

  test('ends where nothing is known', () => {
    const [, points = ''] = /<path d="M(0 40L[^"]+)"/.exec(svg) ?? [];
    const last = points.split('L').at(-1)?.split(' ')[0];
    expect(Number(last)).toBeCloseTo(200 * Math.log10(10_000 / 20), -1);
  });

  test('tints what may not be relied on', () => {
    expect(svg).toMatch(/<rect x="0" y="0" width="135" height="200"/);
  });

  test('carries its sentence as text alternative, escaped', () => {
    expect(svg).toContain('<title>The door plays from 80 Hz &amp; up. Left door, 1/12 octave.</title>');
    expect(svg).not.toContain('& ');
  });

  test('marks with a diamond', () => {
    expect(svg).toContain('M340 40m0 -8l8 8l-8 8l-8 -8z');
  });

  test('writes no NaN, also where nothing is known', () => {
    const empty = responseChart({ ...chart, levelDb: fHz.map(() => null), marksHz: [50] });
    expect(empty + svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  test('refuses a single frequency and a size without room', () => {
    expect(() => responseChart({ ...chart, fHz: [20] })).toThrow(RangeError);
    expect(() => responseChart({ ...chart, heightPx: 120 })).toThrow(RangeError);
    expect(() => responseChart({ ...chart, widthPx: 80 })).toThrow(RangeError);
  });
});
