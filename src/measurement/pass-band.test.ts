import { describe, expect, test } from 'vitest';
import { analogCrossoverResponse, type Crossover } from '../signals/filters/crossover.ts';
import { octaveGrid } from './grids.ts';
import { passBand } from './pass-band.ts';

const fHz = octaveGrid(20, 20_000, 24);
type Family = Crossover['family'];

/** Level of a band-pass on the grid, dB. */
function levelsOf(low: Crossover | null, high: Crossover | null, grid = fHz): number[] {
  const decibels = (crossover: Crossover | null, kind: 'low-pass' | 'high-pass'): number[] => {
    if (!crossover) return grid.map(() => 0);
    const { re, im } = analogCrossoverResponse(crossover, kind, grid);
    return grid.map((_, i) => 20 * Math.log10(Math.hypot(re[i], im[i])));
  };
  const [rise, fall] = [decibels(low, 'high-pass'), decibels(high, 'low-pass')];
  return grid.map((_, i) => rise[i] + fall[i]);
}
const filter = (family: Family, order: number, cornerHz: number): Crossover => ({ family, order, fHz: cornerHz });

describe('corners lie 6 dB down and slopes are those of the filter', () => {
  // Butterworth: 1 / (1 + x^2n) = 1/4 where x^2n = 3. Linkwitz-Riley: 6 dB at its own frequency.
  test.each<[Family, number, number]>([
    ['linkwitz-riley', 4, 1],
    ['linkwitz-riley', 8, 1],
    ['butterworth', 2, 3 ** (1 / 4)],
    ['butterworth', 3, 3 ** (1 / 6)],
    ['butterworth', 4, 3 ** (1 / 8)],
  ])('%s of order %i on either side', (family, order, sixDb) => {
    const band = passBand(fHz, levelsOf(filter(family, order, 100), filter(family, order, 2500)));
    expect(Math.abs((band.lowHz as number) / (100 / sixDb) - 1)).toBeLessThan(0.03);
    expect(Math.abs((band.highHz as number) / (2500 * sixDb) - 1)).toBeLessThan(0.03);
    expect(Math.abs((band.lowSlopeDbPerOctave as number) - 6.02 * order)).toBeLessThan(3);
    expect(Math.abs((band.highSlopeDbPerOctave as number) - 6.02 * order)).toBeLessThan(3);
  });

  test('a gentle filter, where the band is wide enough to have a level', () => {
    const [low, high] = [filter('linkwitz-riley', 2, 50), filter('linkwitz-riley', 2, 8000)];
    const rise = passBand(fHz, levelsOf(low, null));
    const fall = passBand(fHz, levelsOf(null, high));
    expect(Math.abs((rise.lowHz as number) / 50 - 1)).toBeLessThan(0.03);
    expect(Math.abs((fall.highHz as number) / 8000 - 1)).toBeLessThan(0.03);
    expect(Math.abs((rise.lowSlopeDbPerOctave as number) - 12)).toBeLessThan(3);
    expect(Math.abs((fall.highSlopeDbPerOctave as number) - 12)).toBeLessThan(3);
  });

  test('each side for itself', () => {
    const band = passBand(fHz, levelsOf(filter('butterworth', 2, 63), filter('linkwitz-riley', 8, 350)));
    expect(Math.abs((band.lowSlopeDbPerOctave as number) - 12)).toBeLessThan(3);
    expect(Math.abs((band.highSlopeDbPerOctave as number) - 48)).toBeLessThan(3);
  });

  test('whatever the level of the whole', () => {
    const levels = levelsOf(filter('linkwitz-riley', 4, 80), filter('linkwitz-riley', 4, 3000));
    const quiet = passBand(
      fHz,
      levels.map((level) => level - 83),
    );
    const loud = passBand(fHz, levels);
    expect(quiet.lowHz as number).toBeCloseTo(loud.lowHz as number, 6);
    expect(quiet.highHz as number).toBeCloseTo(loud.highHz as number, 6);
  });
});

describe('a side has no corner', () => {
  const none = { lowHz: null, lowSlopeDbPerOctave: null, highHz: null, highSlopeDbPerOctave: null };

  test('where nothing falls', () => {
    expect(passBand(fHz, levelsOf(null, null))).toEqual(none);
    const gentle = fHz.map((f) => -0.5 * Math.log2(f / 1000));
    expect(passBand(fHz, gentle)).toEqual(none);
  });

  test('on the side that does not fall', () => {
    const band = passBand(fHz, levelsOf(filter('linkwitz-riley', 4, 2500), null));
    expect(band).toMatchObject({ highHz: null, highSlopeDbPerOctave: null });
    expect(Math.abs((band.lowHz as number) / 2500 - 1)).toBeLessThan(0.03);
  });

  test('where the fall itself is not known', () => {
    const levels = levelsOf(filter('linkwitz-riley', 4, 80), null).map((level, i) => (fHz[i] < 100 ? null : level));
    expect(passBand(fHz, levels).lowHz).toBeNull();
  });

  test('where fewer than three points are known', () => {
    expect(passBand([], [])).toEqual(none);
    expect(
      passBand(
        fHz,
        fHz.map((_, i) => (i < 2 ? -3 * i : null)),
      ),
    ).toEqual(none);
    expect(
      passBand(
        fHz,
        fHz.map(() => null),
      ),
    ).toEqual(none);
  });
});

test('a fall of less than 12 dB has a corner and no slope', () => {
  const shelf = fHz.map((f) => Math.max(-11, Math.min(0, -24 * Math.log2(200 / f))));
  const band = passBand(fHz, shelf);
  expect(Math.abs((band.lowHz as number) / (200 * 2 ** (-6 / 24)) - 1)).toBeLessThan(0.03);
  expect(band.lowSlopeDbPerOctave).toBeNull();
});

test('a dip of half an octave inside the band does not end it, one of two octaves does', () => {
  const levels = levelsOf(filter('linkwitz-riley', 4, 80), filter('linkwitz-riley', 4, 5000));
  const dipped = (octaves: number): number[] =>
    levels.map((level, i) => level - (Math.abs(Math.log2(fHz[i] / 800)) < octaves / 2 ? 15 : 0));
  const narrow = passBand(fHz, dipped(0.5));
  expect(Math.abs((narrow.lowHz as number) / 80 - 1)).toBeLessThan(0.05);
  expect(Math.abs((narrow.highHz as number) / 5000 - 1)).toBeLessThan(0.05);
  const wide = passBand(fHz, dipped(2));
  expect((wide.lowHz as number) > 700 || (wide.highHz as number) < 900).toBe(true);
});
