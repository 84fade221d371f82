import { describe, expect, test } from 'vitest';
import { responseChart } from './response-chart.ts';

const fHz = Array.from({ length: 121 }, (_, index) => 20 * 10 ** (index / 40));
const chart = {
  fHz,
  levelDb: fHz.map((f) => (f > 10_000 ? null : -20)),
  valid: fHz.map((f) => f >= 100),
  sentence: 'The door plays from 80 Hz & up.',
  state: 'Left door, 1/12 octave.',
  marksHz: [1000],
  // 600 x 200 px of plot: the margins of the document and of the plot around it.
  widthPx: 600 + 24 + 74,
  heightPx: 200 + 90 + 38,
};

describe('a response as a document', () => {
  const svg = responseChart(chart);

  test('draws the level where the axis says it is: 20 of 60 dB down from the top', () => {
    // From -10 to -60 dB over 200 px: 4 px a decibel, so -20 dB lies at 40.
    expect(svg).toContain('M0 40L5 40L10 40');
  });

  test('ends where nothing is known', () => {
    const [, points = ''] = /d="M(0 40L[^"]+)"/.exec(svg) ?? [];
    const last = points.split('L').at(-1)?.split(' ')[0];
    expect(Number(last)).toBeCloseTo(200 * Math.log10(10_000 / 20), -1);
  });

  test('tints what may not be relied on, halfway to what may', () => {
    // Invalid up to index 27 (94.6 Hz), valid from 28 (100.2 Hz): 27.5 steps of 5 px.
    expect(svg).toContain('<rect x="0" y="0" width="137.5" height="200"');
  });

  test('carries its sentence as text alternative, escaped', () => {
    expect(svg).toContain('<title>The door plays from 80 Hz &amp; up. Left door, 1/12 octave.</title>');
    expect(svg).not.toContain('& ');
  });

  test('marks the end of a band', () => {
    expect(svg).toContain('<circle cx="340" cy="40"');
  });

  test('writes no NaN, also where nothing is known', () => {
    const empty = responseChart({ ...chart, levelDb: fHz.map(() => null), marksHz: [50] });
    expect(empty + svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  test('breaks a long sentence into lines instead of running out of the picture', () => {
    const long = responseChart({ ...chart, sentence: 'The left door plays well. '.repeat(6).trim() });
    expect(long.match(/font-size="19"/g)?.length).toBeGreaterThan(1);
  });

  test('refuses a single frequency and a size without room', () => {
    expect(() => responseChart({ ...chart, fHz: [20] })).toThrow(RangeError);
    expect(() => responseChart({ ...chart, heightPx: 120 })).toThrow(RangeError);
    expect(() => responseChart({ ...chart, widthPx: 80 })).toThrow(RangeError);
  });
});
