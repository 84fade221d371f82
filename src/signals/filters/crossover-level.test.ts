import { describe, expect, test } from 'vitest';
import { analogCrossoverResponse } from './crossover.ts';
import { crossoverLevelDb } from './crossover-level.ts';

describe('the level of a planned crossover', () => {
  test.each(['butterworth', 'linkwitz-riley'] as const)('%s is that of its poles', (family) => {
    for (const order of [2, 4]) {
      for (const [type, kind] of [
        ['hp', 'high-pass'],
        ['lp', 'low-pass'],
      ] as const) {
        for (const fHz of [20, 79, 80, 300, 4000]) {
          const { re, im } = analogCrossoverResponse({ family, order, fHz: 80 }, kind, [fHz]);
          const want = 20 * Math.log10(Math.hypot(re[0], im[0]));
          expect(crossoverLevelDb({ type, family, order, hz: 80 }, fHz)).toBeCloseTo(want, 8);
        }
      }
    }
  });

  test('has a level however far from the corner', () => {
    expect(crossoverLevelDb({ type: 'hp', family: 'butterworth', order: 48, hz: 1e6 }, 1e-6)).toBeCloseTo(-11520, 6);
    expect(crossoverLevelDb({ type: 'lp', family: 'butterworth', order: 48, hz: 1e6 }, 1e-6)).toBeCloseTo(0, 12);
  });

  test('refuses an odd Linkwitz-Riley and what is no frequency', () => {
    const odd = { type: 'hp', family: 'linkwitz-riley', order: 3, hz: 80 } as const;
    expect(() => crossoverLevelDb(odd, 80)).toThrow(RangeError);
    expect(() => crossoverLevelDb({ ...odd, order: 4 }, 0)).toThrow(RangeError);
  });
});
