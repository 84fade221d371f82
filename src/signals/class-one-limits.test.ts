import { expect, test } from 'vitest';
import { octaveBand } from './bands.ts';
import { classOneLimits, classOneMargin } from './class-one-limits.ts';

/** Margin of an analog Butterworth band-pass of `pairs` pole pairs designed at the exact edges of a third octave. */
function butterworthMargin(pairs: number): number {
  const { lowHz, centreHz, highHz } = octaveBand(3, 0);
  const width = (highHz - lowHz) / centreHz;
  const fHz = Array.from({ length: 801 }, (_, i) => centreHz * 2 ** ((i - 400) / 80)).filter(
    // The edge itself is a step of the limits; a filter that is 3.01 dB down there passes on either side.
    (f) => Math.abs(f / lowHz - 1) > 1e-6 && Math.abs(f / highHz - 1) > 1e-6,
  );
  const attenuationDb = fHz.map((f) => {
    const x = (f / centreHz - centreHz / f) / width;
    return 10 * Math.log10(1 + x ** (2 * pairs));
  });
  return classOneMargin(3, centreHz, fHz, attenuationDb).marginDb;
}

test('a Butterworth band-pass of three pole pairs is class 1, one of two is not', () => {
  expect(butterworthMargin(3)).toBeGreaterThan(0);
  expect(butterworthMargin(4)).toBeGreaterThan(0);
  expect(butterworthMargin(2)).toBeLessThan(-5);
});

test('limits are the same below as above mid-band and never fall on the way out', () => {
  for (const fraction of [1, 3, 12]) {
    let least = Number.NEGATIVE_INFINITY;
    for (let x = 1; x < 30; x *= 1.003) {
      const above = classOneLimits(fraction, x);
      const below = classOneLimits(fraction, 1 / x);
      expect(below.leastDb).toBeCloseTo(above.leastDb, 9);
      expect(above.leastDb).toBeGreaterThanOrEqual(least);
      least = above.leastDb;
      if (above.mostDb !== null) expect(above.mostDb).toBeGreaterThan(above.leastDb);
    }
    expect(least).toBe(70);
  }
});

test('halfway between breakpoints in log frequency lies half the difference', () => {
  // Octave, between G^1 (16.6 dB) and G^2 (40.5 dB).
  expect(classOneLimits(1, 10 ** 0.45).leastDb).toBeCloseTo((16.6 + 40.5) / 2, 9);
});

test('the margin names the frequency that decides', () => {
  const result = classOneMargin(1, 1000, [1000, 2000, 4000], [0, 20, 39]);
  expect(result.atHz).toBe(4000);
  expect(result.marginDb).toBeLessThan(0);
  expect(classOneMargin(1, 1000, [1000], [0.5])).toEqual({ marginDb: expect.closeTo(-0.1, 9), atHz: 1000 });
});

test('nothing to judge is refused', () => {
  expect(() => classOneMargin(1, 1000, [], [])).toThrow('attenuationDb must be as long as fHz (>= 1), got 0 for 0');
  expect(() => classOneMargin(1, 1000, [1], [1, 2])).toThrow(RangeError);
  expect(() => classOneLimits(1, 0)).toThrow('ratio');
  expect(() => classOneLimits(0, 1)).toThrow('fraction');
});
