import { describe, expect, test } from 'vitest';
import { frequencyAxis, levelAxis, linearAxis, percentAxis } from './axes.ts';
import { axisPlace } from './plot.ts';

const texts = (ticks: { text: string }[]) => ticks.map(({ text }) => text);

describe('the frequency axis', () => {
  test('lays decades at equal distances', () => {
    const place = axisPlace(frequencyAxis(20, 20_000), 600);
    expect([20, 200, 2000, 20_000].map(place).map(Math.round)).toEqual([0, 200, 400, 600]);
  });

  test('has a line for each step of 1 to 9 and the unit on the first label alone', () => {
    const { lines, ticks } = frequencyAxis(20, 2000);
    expect(lines.map(({ value }) => value)).toEqual([
      ...[20, 30, 40, 50, 60, 70, 80, 90],
      ...[100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 2000],
    ]);
    expect(texts(ticks)).toEqual(['20 Hz', '50', '100', '200', '500', '1k', '2k']);
  });

  test('marks as minor what a narrow plot leaves out', () => {
    const { ticks } = frequencyAxis(20, 20_000);
    expect(texts(ticks.filter(({ minor }) => !minor))).toEqual(['20 Hz', '100', '1k', '10k']);
  });

  test('labels every line where less than a decade is shown', () => {
    expect(texts(frequencyAxis(2100, 4200).ticks)).toEqual(['3k Hz', '4k']);
  });

  test.each([
    [0, 100],
    [100, 100],
    [200, 100],
  ])('refuses %d..%d Hz', (from, to) => {
    expect(() => frequencyAxis(from, to)).toThrow(RangeError);
  });
});

describe('the linear axis', () => {
  test('carries its unit once, signs and a decimal comma where asked', () => {
    const style = { decimal: ',' } as const;
    const axis = linearAxis({ from: -1, to: 1, step: 0.5, unit: 'dB', unitAt: 'last', signed: true, style });
    expect(texts(axis.ticks)).toEqual(['\u22121,0', '\u22120,5', '0,0', '+0,5', '+1,0 dB']);
  });

  test('has lines inside its ends only', () => {
    const axis = linearAxis({ from: -110, to: 110, step: 50, unit: '%', unitAt: 'first' });
    expect(axis.lines.map(({ value }) => value)).toEqual([-100, -50, 0, 50, 100]);
    expect(axis.ticks[0].text).toBe('\u2212100 %');
  });

  test('refuses an empty range', () => {
    expect(() => linearAxis({ from: 1, to: 1, step: 1, unit: '', unitAt: 'first' })).toThrow(RangeError);
  });
});

describe('the level axis', () => {
  test('tops out at the next multiple of ten and spans fifty decibels at least', () => {
    expect(levelAxis([-20, null, -22])).toMatchObject({ from: -60, to: -10 });
  });

  test('reaches down to the lowest level, but not without end', () => {
    expect(levelAxis([-1, -66])).toMatchObject({ from: -70, to: 0 });
    expect(levelAxis([-1, -300])).toMatchObject({ from: -80, to: 0 });
  });

  test('is there even where nothing is known', () => {
    expect(levelAxis([null])).toMatchObject({ from: -50, to: 0 });
  });
});

test('the percent axis is labelled one and three in each decade', () => {
  expect(texts(percentAxis(0.03, 45, { decimal: ',' }).ticks)).toEqual([
    '0,03 %',
    '0,1 %',
    '0,3 %',
    '1 %',
    '3 %',
    '10 %',
    '30 %',
  ]);
});
