import { describe, expect, test } from 'vitest';
import {
  areRepeats,
  averageBand,
  averageBands,
  averageDistortion,
  averageResponse,
  commonPolarity,
} from './average-of-stimuli.ts';
import type { Distortion, PassBand, Polarity, Response } from './reading.ts';

const response = (
  levelDb: (number | null)[],
  phaseDeg: (number | null)[],
  valid = levelDb.map(() => true),
): Response => ({
  fHz: levelDb.map((_, i) => 100 * 2 ** i),
  levelDb,
  phaseDeg,
  valid,
  levelSigmaDb: levelDb.map(() => 0.3),
});

describe('responses', () => {
  test('average by power: 0 and 10 dB make 7.4', () => {
    const mean = averageResponse([response([0], [0]), response([10], [0])], true);
    expect(mean?.levelDb[0]).toBeCloseTo(10 * Math.log10((1 + 10) / 2), 12);
  });

  test('average phases as directions: 170 and -170 degrees make 180, not 0', () => {
    const mean = averageResponse([response([0], [170]), response([0], [-170])], true);
    expect(Math.abs(mean?.phaseDeg[0] as number)).toBeCloseTo(180, 9);
  });

  test('that took other paths have no common phase', () => {
    expect(averageResponse([response([0], [10]), response([0], [10])], false)?.phaseDeg).toEqual([null]);
  });

  test('are valid where all are, and less uncertain by the root of their number', () => {
    const four = [1, 2, 3, 4].map((n) => response([0, 0], [0, 0], [true, n !== 3]));
    const mean = averageResponse(four, true);
    expect(mean?.valid).toEqual([true, false]);
    expect(mean?.levelSigmaDb[0]).toBeCloseTo(0.15, 12);
  });

  test('of one path are not valid where they lie more than 3 dB apart; of two paths they may', () => {
    const [one, other] = [response([0, 0], [0, 0]), response([3, 3.1], [0, 0])];
    expect(averageResponse([one, other], true)?.valid).toEqual([true, false]);
    expect(averageResponse([one, other], false)?.valid).toEqual([true, true]);
  });

  test('of which one says nothing at a frequency take the others there, but no phase', () => {
    const mean = averageResponse([response([null, null], [null, null]), response([-3, null], [5, null])], true);
    expect(mean?.levelDb[0]).toBeCloseTo(-3, 12);
    expect(mean?.levelDb[1]).toBeNull();
    expect(mean?.phaseDeg).toEqual([null, null]);
  });

  test('of one is that one', () => {
    const only = response([-3, 4], [-179, 20]);
    const mean = averageResponse([only], true);
    only.levelDb.forEach((level, i) => {
      expect(mean?.levelDb[i]).toBeCloseTo(level as number, 12);
      expect(mean?.phaseDeg[i]).toBeCloseTo(only.phaseDeg[i] as number, 9);
    });
  });

  test('on other grids, or none, have no average', () => {
    expect(averageResponse([], true)).toBeNull();
    expect(averageResponse([response([0], [0]), response([0, 0], [0, 0])], true)).toBeNull();
    const shifted = { ...response([0], [0]), fHz: [100.01] };
    expect(averageResponse([response([0], [0]), shifted], true)).toBeNull();
  });
});

describe('distortions', () => {
  const distortion = (thdPct: number | null, valid = true): Distortion => ({
    fHz: [100],
    thdPct: [thdPct],
    h2Pct: [thdPct],
    h3Pct: [null],
    h4Pct: [null],
    h5Pct: [null],
    floorPct: [0.1],
    valid: [valid],
  });

  test('average by power, and where one is unknown the average is', () => {
    const mean = averageDistortion([distortion(3), distortion(4, false)]);
    expect(mean?.thdPct[0]).toBeCloseTo(Math.sqrt((9 + 16) / 2), 12);
    expect(mean).toMatchObject({ h3Pct: [null], valid: [false] });
    expect(averageDistortion([distortion(3), distortion(null)])?.thdPct).toEqual([null]);
    expect(averageDistortion([])).toBeNull();
  });
});

test('band levels average by power on one grid', () => {
  const mean = averageBands([
    { fHz: [1000], levelDb: [0] },
    { fHz: [1000], levelDb: [-200] },
  ]);
  expect(mean?.levelDb[0]).toBeCloseTo(-10 * Math.log10(2), 9);
  expect(averageBands([])).toBeNull();
  expect(
    averageBands([
      { fHz: [1000], levelDb: [0] },
      { fHz: [], levelDb: [] },
    ]),
  ).toBeNull();
});

describe('polarities', () => {
  const said = (sign: 1 | -1 | 0, confidence: number): Polarity => ({ sign, confidence, reason: `${sign}` });

  test('that agree are one, as sure as the surest', () => {
    expect(commonPolarity([said(-1, 0.7), said(-1, 0.9)])).toMatchObject({ sign: -1, confidence: 0.9 });
  });

  test('that contradict each other are none', () => {
    expect(commonPolarity([said(1, 0.99), said(-1, 0.5)])).toMatchObject({ sign: 0, confidence: 0 });
  });

  test('of which half say nothing are half as sure', () => {
    expect(commonPolarity([said(0, 0), said(1, 0.9)])).toMatchObject({ sign: 1, confidence: 0.45 });
  });

  test('that say nothing say why', () => {
    expect(commonPolarity([said(0, 0), said(0, 0)])).toEqual(said(0, 0));
    expect(commonPolarity([])).toBeNull();
  });
});

describe('pass bands', () => {
  const band = (lowHz: number | null, lowSlopeDbPerOctave: number | null): PassBand => ({
    lowHz,
    lowSlopeDbPerOctave,
    highHz: null,
    highSlopeDbPerOctave: null,
  });

  test('average corners as intervals and slopes as numbers', () => {
    const mean = averageBand([band(50, 20), band(200, 28)]);
    expect(mean?.lowHz).toBeCloseTo(100, 9);
    expect(mean?.lowSlopeDbPerOctave).toBeCloseTo(24, 12);
    expect(mean?.highHz).toBeNull();
  });

  test('without a corner in one have none', () => {
    expect(averageBand([band(50, 20), band(null, null)])).toEqual(band(null, null));
    expect(averageBand([])).toBeNull();
  });
});

test('stimuli repeat each other where kind and side are the same', () => {
  const sweep = { kind: 'sweep', side: 'left', levelDbfs: -12 } as const;
  expect(areRepeats([sweep, { ...sweep, levelDbfs: -6 }])).toBe(true);
  expect(areRepeats([sweep, { ...sweep, side: 'right' }])).toBe(false);
  expect(areRepeats([sweep, { ...sweep, kind: 'noise' }])).toBe(false);
  expect(areRepeats([sweep])).toBe(true);
});
