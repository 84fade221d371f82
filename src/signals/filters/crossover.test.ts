import { expect, test } from 'vitest';
import {
  analogCrossoverResponse,
  CROSSOVER_ORDERS,
  type Crossover,
  crossoverSections,
  type PassKind,
} from './crossover.ts';
import { crossoverPrototype } from './prototype.ts';
import { type ComplexResponse, sectionsLevelDb, sectionsResponse } from './sections.ts';

const db = (r: ComplexResponse, i = 0) => 20 * Math.log10(Math.hypot(r.re[i], r.im[i]));
const lowHigh = (crossover: Crossover, fHz: number[]) => [
  analogCrossoverResponse(crossover, 'low-pass', fHz),
  analogCrossoverResponse(crossover, 'high-pass', fHz),
];
/** Level of low + sign * high, dB. */
function sumDb(crossover: Crossover, sign: number, fHz: number): number {
  const [low, high] = lowHigh(crossover, [fHz]);
  return 20 * Math.log10(Math.hypot(low.re[0] + sign * high.re[0], low.im[0] + sign * high.im[0]));
}
const AROUND = [125, 400, 500, 900, 1000, 1100, 2000, 5000];

test('Butterworth sections have the Qs of the published tables', () => {
  const qs = (order: number) =>
    crossoverPrototype({ family: 'butterworth', order }).map(({ q }) => (q === null ? 'real' : q.toFixed(4)));
  expect(qs(1)).toEqual(['real']);
  expect(qs(2)).toEqual(['0.7071']);
  expect(qs(3)).toEqual(['1.0000', 'real']);
  expect(qs(4)).toEqual(['1.3066', '0.5412']);
  expect(qs(6)).toEqual(['1.9319', '0.7071', '0.5176']);
  expect(qs(8)).toEqual(['2.5629', '0.9000', '0.6013', '0.5098']);
});

test('at its own frequency Butterworth is 3.01 dB down and Linkwitz-Riley 6.02 dB, digital as well as analog', () => {
  for (const [family, lossDb] of [
    ['butterworth', 10 * Math.log10(2)],
    ['linkwitz-riley', 20 * Math.log10(2)],
  ] as const) {
    for (const order of CROSSOVER_ORDERS[family]) {
      for (const kind of ['low-pass', 'high-pass'] as PassKind[]) {
        const crossover = { family, order, fHz: 2500 };
        expect(db(analogCrossoverResponse(crossover, kind, [2500]))).toBeCloseTo(-lossDb, 10);
        expect(sectionsLevelDb(crossoverSections(crossover, kind, 44100), [2500], 44100)[0]).toBeCloseTo(-lossDb, 9);
      }
    }
  }
});

test('Bessel by magnitude is 3.01 dB down at its frequency; by phase 4.77 (order 2) to 12.59 dB (order 8)', () => {
  const lossDb = (order: number, normalisation: 'magnitude' | 'phase') =>
    -db(analogCrossoverResponse({ family: 'bessel', order, fHz: 100, normalisation }, 'low-pass', [100]));
  for (let order = 1; order <= 8; order++) expect(lossDb(order, 'magnitude')).toBeCloseTo(10 * Math.log10(2), 10);
  const published = [4.77, 6.24, 7.58, 8.86, 10.12, 11.36, 12.59];
  published.forEach((loss, i) => {
    expect(lossDb(i + 2, 'phase')).toBeCloseTo(loss, 2);
  });
});

test('far outside the pass band the slope is 6 dB per octave and order', () => {
  for (const [family, orders] of Object.entries(CROSSOVER_ORDERS)) {
    for (const order of orders) {
      const crossover = { family: family as Crossover['family'], order, fHz: 1000 };
      const [low, high] = lowHigh(crossover, [1000 / 2 ** 12, 1000 / 2 ** 11, 1000 * 2 ** 11, 1000 * 2 ** 12]);
      expect(db(low, 2) - db(low, 3)).toBeCloseTo(order * 20 * Math.log10(2), 3);
      expect(db(high, 1) - db(high, 0)).toBeCloseTo(order * 20 * Math.log10(2), 3);
      expect(db(low, 0)).toBeCloseTo(0, 3);
      expect(db(high, 3)).toBeCloseTo(0, 3);
    }
  }
});

test('Linkwitz-Riley 4 and 8 sum flat in polarity, 2 and 6 with one side inverted', () => {
  for (const order of [2, 4, 6, 8]) {
    const flat = order % 4 === 0 ? 1 : -1;
    const crossover: Crossover = { family: 'linkwitz-riley', order, fHz: 1000 };
    for (const f of AROUND) expect(sumDb(crossover, flat, f)).toBeCloseTo(0, 9);
    expect(sumDb(crossover, -flat, 1000)).toBeLessThan(-200);
  }
});

test('Butterworth 1 and 3 sum flat in either polarity; 2 and 4 give +3 dB one way and a null the other', () => {
  for (const sign of [1, -1]) {
    for (const order of [1, 3]) {
      for (const f of AROUND) expect(sumDb({ family: 'butterworth', order, fHz: 1000 }, sign, f)).toBeCloseTo(0, 9);
    }
  }
  for (const [order, louder] of [
    [2, -1],
    [4, 1],
  ]) {
    const crossover: Crossover = { family: 'butterworth', order, fHz: 1000 };
    expect(sumDb(crossover, louder, 1000)).toBeCloseTo(10 * Math.log10(2), 9);
    expect(sumDb(crossover, -louder, 1000)).toBeLessThan(-200);
  }
});

test('the digital filter is the analog one well below the rate and falls faster towards half of it', () => {
  const crossover: Crossover = { family: 'butterworth', order: 4, fHz: 2000 };
  const sections = crossoverSections(crossover, 'low-pass', 48000);
  const fHz = [100, 1000, 2000, 20000];
  const digital = sectionsResponse(sections, fHz, 48000);
  const analog = analogCrossoverResponse(crossover, 'low-pass', fHz);
  for (let i = 0; i < 3; i++) expect(db(digital, i)).toBeCloseTo(db(analog, i), 1);
  expect(db(digital, 3)).toBeLessThan(db(analog, 3) - 10);
});

test('a high-pass passes nothing at 0 Hz and says so without dividing by it', () => {
  for (const order of [1, 2, 5]) {
    const crossover: Crossover = { family: 'bessel', order, fHz: 80 };
    const { re, im } = analogCrossoverResponse(crossover, 'high-pass', [0]);
    expect(Math.hypot(re[0], im[0])).toBe(0);
    const digital = sectionsResponse(crossoverSections(crossover, 'high-pass', 48000), [0], 48000);
    expect(Math.hypot(digital.re[0], digital.im[0])).toBeLessThan(1e-12);
  }
});

test('what does not exist is refused with what does', () => {
  const make =
    (crossover: object, kind = 'low-pass') =>
    () =>
      crossoverSections(
        { family: 'butterworth', order: 2, fHz: 100, ...crossover } as Crossover,
        kind as PassKind,
        48000,
      );
  expect(make({ family: 'linkwitz-riley', order: 3 })).toThrow(
    'order of linkwitz-riley must be one of 2, 4, 6, 8, got 3',
  );
  expect(make({ order: 9 })).toThrow('order of butterworth must be one of 1, 2, 3, 4, 5, 6, 7, 8, got 9');
  expect(make({ order: 0 })).toThrow(RangeError);
  expect(make({ order: 2.5 })).toThrow(RangeError);
  expect(make({ family: 'toString' })).toThrow(
    /family must be one of butterworth, linkwitz-riley, bessel, got toString/,
  );
  expect(make({ family: 'bessel', normalisation: 'delay' })).toThrow(
    'normalisation must be magnitude or phase, got delay',
  );
  expect(make({}, 'band-pass')).toThrow('kind must be low-pass or high-pass, got band-pass');
  expect(make({ fHz: 24000 })).toThrow(/crossover fHz must be 0.048..23952, got 24000/);
  expect(make({ fHz: 0 })).toThrow(RangeError);
  expect(make({ fHz: Number.NaN })).toThrow(RangeError);
  expect(make({ fHz: 23952, family: 'bessel', order: 8 })).not.toThrow();
});
