import { expect, test } from 'vitest';
import { type EqualiserBand, equaliserBandSection, peakingLevelDb } from './equaliser-band.ts';
import { sectionsLevelDb, sectionsResponse } from './sections.ts';

const RATE = 48000;
const level = (band: EqualiserBand, fHz: number) => sectionsLevelDb([equaliserBandSection(band, RATE)], [fHz], RATE)[0];
function phaseDeg(band: EqualiserBand, fHz: number): number {
  const { re, im } = sectionsResponse([equaliserBandSection(band, RATE)], [fHz], RATE);
  return (Math.atan2(im[0], re[0]) * 180) / Math.PI;
}

test('a peaking band has its gain at its frequency and none at both ends', () => {
  for (const gainDb of [-12, -3, 6]) {
    const band: EqualiserBand = { type: 'peaking', fHz: 63, gainDb, q: 3 };
    expect(level(band, 63)).toBeCloseTo(gainDb, 9);
    expect(level(band, 0)).toBeCloseTo(0, 9);
    expect(level(band, 24000)).toBeCloseTo(0, 9);
  }
});

test('q is the bandwidth between the points of half gain', () => {
  const q = 2;
  const half = Math.asinh(1 / (2 * q));
  const band: EqualiserBand = { type: 'peaking', fHz: 200, gainDb: 8, q };
  for (const side of [-1, 1]) expect(level(band, 200 * Math.exp(side * half))).toBeCloseTo(4, 2);
});

test('boost and cut of the same settings undo each other', () => {
  const boost = equaliserBandSection({ type: 'peaking', fHz: 500, gainDb: 7, q: 1.3 }, RATE);
  const cut = equaliserBandSection({ type: 'peaking', fHz: 500, gainDb: -7, q: 1.3 }, RATE);
  const { re, im } = sectionsResponse([boost, cut], [50, 400, 500, 3000], RATE);
  for (let i = 0; i < re.length; i++) {
    expect(re[i]).toBeCloseTo(1, 12);
    expect(im[i]).toBeCloseTo(0, 12);
  }
});

test('shelves give their gain on their own side and half of it at their frequency', () => {
  for (const knee of [{ q: 0.7 }, { slope: 0.8 }]) {
    for (const gainDb of [9, -5]) {
      const low = { type: 'low-shelf', fHz: 1000, gainDb, ...knee } as EqualiserBand;
      const high = { type: 'high-shelf', fHz: 1000, gainDb, ...knee } as EqualiserBand;
      expect([level(low, 0), level(low, 1000), level(low, 24000)].map((x) => x.toFixed(6))).toEqual(
        [gainDb, gainDb / 2, 0].map((x) => x.toFixed(6)),
      );
      expect(level(high, 0)).toBeCloseTo(0, 6);
      expect(level(high, 1000)).toBeCloseTo(gainDb / 2, 6);
      expect(level(high, 24000)).toBeCloseTo(gainDb, 6);
    }
  }
});

test('a shelf of slope 1 rises without overshoot, a steeper one overshoots', () => {
  const largest = (slope: number) =>
    Math.max(
      ...Array.from({ length: 200 }, (_, k) => level({ type: 'low-shelf', fHz: 500, gainDb: 6, slope }, 5 * 1.04 ** k)),
    );
  expect(largest(1)).toBeLessThan(6 + 1e-9);
  expect(largest(1.5)).toBeGreaterThan(6.01);
});

test('notch, band-pass, low- and high-pass do what they are called after', () => {
  expect(level({ type: 'notch', fHz: 500, q: 2 }, 500)).toBeLessThan(-200);
  expect(level({ type: 'notch', fHz: 500, q: 2 }, 0)).toBeCloseTo(0, 9);
  expect(level({ type: 'band-pass', fHz: 500, q: 2 }, 500)).toBeCloseTo(0, 9);
  expect(level({ type: 'band-pass', fHz: 500, q: 2 }, 0)).toBe(-400);
  for (const type of ['low-pass', 'high-pass'] as const) {
    expect(level({ type, fHz: 30, q: 0.7 }, 30)).toBeCloseTo(20 * Math.log10(0.7), 6);
  }
  expect(level({ type: 'low-pass', fHz: 30, q: 0.7 }, 0)).toBeCloseTo(0, 9);
  expect(level({ type: 'high-pass', fHz: 30, q: 0.7 }, 24000)).toBeCloseTo(0, 9);
});

test('an all-pass changes phase only: -90 degrees at its frequency for order 1, -180 for order 2', () => {
  const first: EqualiserBand = { type: 'all-pass', fHz: 800, order: 1 };
  const second: EqualiserBand = { type: 'all-pass', fHz: 800, q: 1.2 };
  for (const f of [0, 100, 800, 7000, 24000]) {
    expect(level(first, f)).toBeCloseTo(0, 9);
    expect(level(second, f)).toBeCloseTo(0, 9);
  }
  expect(phaseDeg(first, 0)).toBeCloseTo(0, 9);
  expect(phaseDeg(first, 800)).toBeCloseTo(-90, 9);
  expect(Math.abs(phaseDeg(first, 24000))).toBeCloseTo(180, 9);
  expect(Math.abs(phaseDeg(second, 800))).toBeCloseTo(180, 9);
  expect(phaseDeg(second, 400)).toBeLessThan(0);
  expect(phaseDeg(second, 1600)).toBeGreaterThan(0);
});

test('the closed form of a peaking band equals its section from 0 Hz to half the rate', () => {
  const fHz = [0, 0.01, 5, 19.99, 20, 20.01, 300, 12000, 24000];
  for (const band of [
    { fHz: 20, gainDb: 12, q: 8 },
    { fHz: 20, gainDb: -12, q: 0.5 },
    { fHz: 15000, gainDb: 4, q: 1 },
  ]) {
    const closed = peakingLevelDb(band, fHz, RATE);
    const sections = sectionsLevelDb([equaliserBandSection({ type: 'peaking', ...band }, RATE)], fHz, RATE);
    closed.forEach((value, i) => {
      expect(value).toBeCloseTo(sections[i], 8);
    });
  }
});

test('settings outside their range are refused by name', () => {
  const make =
    (band: object, rateHz = RATE) =>
    () =>
      equaliserBandSection(band as EqualiserBand, rateHz);
  expect(make({ type: 'peaking', fHz: 24000, gainDb: 1, q: 1 })).toThrow('peaking fHz must be 0.048..23952, got 24000');
  expect(make({ type: 'peaking', fHz: 100, gainDb: 61, q: 1 })).toThrow('peaking gainDb must be -60..60, got 61');
  expect(make({ type: 'peaking', fHz: 100, q: 1 })).toThrow('peaking gainDb must be -60..60, got undefined');
  expect(make({ type: 'low-shelf', fHz: 100, gainDb: 3 })).toThrow('low-shelf q must be 0.01..1000, got NaN');
  expect(make({ type: 'notch', fHz: 100, q: 0 })).toThrow('notch q must be 0.01..1000, got 0');
  expect(make({ type: 'wah', fHz: 100, q: 1 })).toThrow('type of a band must be one of the known ones, got wah');
  expect(make({ type: 'peaking', fHz: 100, gainDb: 1, q: 1 }, 0)).toThrow('rateHz');
  expect(() => peakingLevelDb({ fHz: 100, gainDb: 1, q: 1 }, [30000], RATE)).toThrow('fHz must be 0..24000');
});

test('an all-pass written with a gain of 0, as settings lists have it, is accepted', () => {
  const band = { type: 'all-pass', fHz: 100, gainDb: 0, q: 1 } as const;
  expect(level(band, 100)).toBeCloseTo(0, 9);
});
