import { describe, expect, test } from 'vitest';
import { equaliserBandSection } from './filters/equaliser-band.ts';
import { type Section, sectionsResponse } from './filters/sections.ts';
import { minimumPhase } from './minimum-phase.ts';

const RATE_HZ = 48_000;
const SIZE = 65_536;

/** Worst difference of phase, degrees, between sections and the minimum phase of their magnitude, `lowHz` .. 20 kHz. */
function worstPhaseDeg(sections: Section[], lowHz = 20, firstBin = 0): number {
  const fHz = Float64Array.from({ length: SIZE / 2 + 1 }, (_, k) => (Math.max(k, firstBin) * RATE_HZ) / SIZE);
  const { re, im } = sectionsResponse(sections, fHz, RATE_HZ);
  const found = minimumPhase(
    re.map((r, k) => Math.hypot(r, im[k])),
    SIZE,
  );
  let worst = 0;
  for (let k = 0; k < fHz.length; k++) {
    if (fHz[k] < lowHz || fHz[k] > 20_000) continue;
    const turn = Math.atan2(found.im[k], found.re[k]) - Math.atan2(im[k], re[k]);
    worst = Math.max(worst, Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))));
  }
  return (worst * 180) / Math.PI;
}

describe('the magnitude of filters that have minimum phase gives their phase within half a degree', () => {
  const peaking = equaliserBandSection({ type: 'peaking', fHz: 1000, gainDb: 9, q: 2 }, RATE_HZ);
  const dip = equaliserBandSection({ type: 'peaking', fHz: 90, gainDb: -15, q: 4 }, RATE_HZ);
  const shelf = equaliserBandSection({ type: 'low-shelf', fHz: 200, gainDb: -12, q: 0.7 }, RATE_HZ);
  const highPass = equaliserBandSection({ type: 'high-pass', fHz: 60, q: 0.7 }, RATE_HZ);
  test.each([
    ['a peak', [peaking]],
    ['a narrow dip in the bass', [dip]],
    ['a shelf', [shelf]],
    ['all of them in a row', [peaking, dip, shelf]],
  ])('%s', (_, sections) => {
    expect(worstPhaseDeg(sections)).toBeLessThan(0.5);
  });

  test('a high-pass only well above its zero at 0 Hz, and if that bin is taken a third of a bin up', () => {
    // The logarithm has no value at the zero itself; one bin at the floor alone turns the phase by 20 degrees at 20 Hz.
    expect(worstPhaseDeg([highPass], 100, 1 / Math.PI)).toBeLessThan(0.5);
    expect(worstPhaseDeg([highPass])).toBeGreaterThan(10);
  });

  test('and not that of one that has more delay than it needs', () => {
    const turned = equaliserBandSection({ type: 'all-pass', fHz: 1000, q: 1 }, RATE_HZ);
    expect(worstPhaseDeg([peaking, turned])).toBeGreaterThan(170);
  });
});

describe('the result', () => {
  test('has the magnitude it was asked for, up to the floor 240 dB down', () => {
    const magnitude = new Float64Array(513).map((_, k) => 2 + Math.cos((2 * Math.PI * k) / 64));
    magnitude[100] = 0;
    const { re, im } = minimumPhase(magnitude, 1024);
    magnitude.forEach((wanted, k) => {
      expect(Math.hypot(re[k], im[k])).toBeCloseTo(Math.max(wanted, 3e-12), 9);
    });
  });

  test('of a flat magnitude is that magnitude, without phase', () => {
    const { re, im } = minimumPhase(new Float64Array(9).fill(0.5), 16);
    re.forEach((r, k) => {
      expect(r).toBeCloseTo(0.5, 12);
      expect(im[k]).toBeCloseTo(0, 12);
    });
  });

  test('of nothing at all is finite', () => {
    const { re, im } = minimumPhase(new Float64Array(9), 16);
    expect([...re, ...im].every(Number.isFinite)).toBe(true);
  });
});

test('a magnitude that does not fit its transform is refused', () => {
  expect(() => minimumPhase(new Float64Array(8), 16)).toThrow('got 8 for 16');
  expect(() => minimumPhase(new Float64Array(8), 15)).toThrow(RangeError);
});
