import { describe, expect, test } from 'vitest';
import { magnitude } from './complex.ts';
import { crossoverSections } from './crossover.ts';
import { allPass2, filtered, peaking2, sectionsResponse } from './sections.ts';

const RATE_HZ = 96_000;
const db = (value: number): number => 20 * Math.log10(value);

describe('a crossover', () => {
  const levelAt = (family: 'butterworth' | 'linkwitz-riley', order: number, fHz: number): number =>
    db(
      magnitude(
        sectionsResponse(
          crossoverSections({ highPass: { family, order, fHz: 1000 }, lowPass: null }, RATE_HZ),
          fHz,
          RATE_HZ,
        ),
      ),
    );

  test('of Butterworth stands 3.01 dB down at its corner, of Linkwitz-Riley 6.02', () => {
    for (const order of [1, 2, 3, 4, 6, 8]) expect(levelAt('butterworth', order, 1000)).toBeCloseTo(-3.0103, 4);
    for (const order of [2, 4, 6, 8]) expect(levelAt('linkwitz-riley', order, 1000)).toBeCloseTo(-6.0206, 4);
  });

  test('falls by 6 dB per octave and order far below', () => {
    expect(levelAt('linkwitz-riley', 4, 62.5) - levelAt('linkwitz-riley', 4, 31.25)).toBeCloseTo(24.08, 1);
    expect(levelAt('butterworth', 3, 62.5) - levelAt('butterworth', 3, 31.25)).toBeCloseTo(18.06, 1);
  });

  test('of Linkwitz-Riley 4 adds up flat with its counterpart', () => {
    const edge = { family: 'linkwitz-riley', order: 4, fHz: 1000 } as const;
    const high = crossoverSections({ highPass: edge, lowPass: null }, RATE_HZ);
    const low = crossoverSections({ highPass: null, lowPass: edge }, RATE_HZ);
    for (const fHz of [200, 700, 1000, 1800, 9000]) {
      const a = sectionsResponse(high, fHz, RATE_HZ);
      const b = sectionsResponse(low, fHz, RATE_HZ);
      expect(db(Math.hypot(a.re + b.re, a.im + b.im))).toBeCloseTo(0, 6);
    }
  });

  test('refuses an odd Linkwitz-Riley', () => {
    expect(() =>
      crossoverSections({ highPass: { family: 'linkwitz-riley', order: 3, fHz: 100 }, lowPass: null }, RATE_HZ),
    ).toThrow('even');
  });
});

test('sections run in time have the response their formula gives', () => {
  const sections = [peaking2(1000, 3, 6, RATE_HZ), allPass2(400, 0.8, RATE_HZ)];
  const impulse = new Float64Array(16_384);
  impulse[0] = 1;
  const response = filtered(sections, impulse);
  for (const fHz of [150, 400, 1000, 5000]) {
    let re = 0;
    let im = 0;
    for (let n = 0; n < response.length; n++) {
      re += response[n] * Math.cos((2 * Math.PI * fHz * n) / RATE_HZ);
      im -= response[n] * Math.sin((2 * Math.PI * fHz * n) / RATE_HZ);
    }
    const formula = sectionsResponse(sections, fHz, RATE_HZ);
    expect(re).toBeCloseTo(formula.re, 9);
    expect(im).toBeCloseTo(formula.im, 9);
  }
  expect(db(magnitude(sectionsResponse([sections[0]], 1000, RATE_HZ)))).toBeCloseTo(6, 9);
  expect(sectionsResponse([sections[1]], 400, RATE_HZ).re).toBeCloseTo(-1, 9);
});
