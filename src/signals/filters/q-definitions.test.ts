import { expect, test } from 'vitest';
import { peakingLevelDb } from './equaliser-band.ts';
import {
  constantPoleQFromCookbookQ,
  cookbookQFromOctaves,
  cookbookQFromThreeDbQ,
  octavesFromCookbookQ,
  symmetricPoleQFromCookbookQ,
  threeDbQFromCookbookQ,
} from './q-definitions.ts';

test('boost and cut show the same symmetric Q, but different Qs of their poles', () => {
  expect(symmetricPoleQFromCookbookQ(2, 6)).toBeCloseTo(2.825, 3);
  expect(symmetricPoleQFromCookbookQ(2, -6)).toBeCloseTo(2.825, 3);
  expect(constantPoleQFromCookbookQ(2, 6)).toBeCloseTo(2.825, 3);
  expect(constantPoleQFromCookbookQ(2, -6)).toBeCloseTo(1.416, 3);
});

test('one octave is q 1.414 and a third 4.318, as every table has it', () => {
  expect(cookbookQFromOctaves(1)).toBeCloseTo(Math.SQRT2, 12);
  expect(cookbookQFromOctaves(1 / 3)).toBeCloseTo(4.3185, 4);
});

test('octaves hold on the digital band as well, at 4 kHz to a hundredth of the gain', () => {
  const place = { fHz: 4000, rateHz: 48000 };
  const q = cookbookQFromOctaves(0.5, place);
  expect(octavesFromCookbookQ(q, place)).toBeCloseTo(0.5, 12);
  const edges = [4000 * 2 ** -0.25, 4000 * 2 ** 0.25];
  for (const half of peakingLevelDb({ fHz: 4000, gainDb: 6, q }, edges, 48000)) expect(half).toBeCloseTo(3, 1);
});

test('the width 3 dB below the peak is where the band really is 3 dB below its peak', () => {
  for (const [fHz, q] of [
    [100, 1],
    [9000, 2.5],
  ]) {
    const shownQ = threeDbQFromCookbookQ(q, 9, { fHz, rateHz: 48000 });
    const widthHz = fHz / shownQ;
    // Search the two edges on the closed form itself.
    const edge = (from: number, to: number) => {
      let [below, above] = [from, to];
      for (let i = 0; i < 80; i++) {
        const middle = (below + above) / 2;
        if (peakingLevelDb({ fHz, gainDb: 9, q }, [middle], 48000)[0] < 6) below = middle;
        else above = middle;
      }
      return below;
    };
    expect(edge(24000, fHz) - edge(0, fHz)).toBeCloseTo(widthHz, 6);
  }
});

test('Q by the 3 dB width converts there and back, with and without a place', () => {
  for (const place of [undefined, { fHz: 12000, rateHz: 44100 }]) {
    for (const q of [0.5, 2, 9]) {
      for (const gainDb of [3.5, 12]) {
        expect(cookbookQFromThreeDbQ(threeDbQFromCookbookQ(q, gainDb, place), gainDb, place)).toBeCloseTo(q, 9);
      }
    }
  }
  // Far below half the rate the place does not matter.
  const low = threeDbQFromCookbookQ(2, 6, { fHz: 20, rateHz: 96000 });
  expect(low).toBeCloseTo(threeDbQFromCookbookQ(2, 6), 5);
});

test('what has no meaning is refused', () => {
  expect(() => cookbookQFromThreeDbQ(1, 3)).toThrow('gainDb must be 3.01..60 for a width 3 dB below the peak, got 3');
  expect(() => threeDbQFromCookbookQ(1, -6)).toThrow(RangeError);
  expect(() => symmetricPoleQFromCookbookQ(0, 6)).toThrow('q must be');
  expect(() => constantPoleQFromCookbookQ(1, 61)).toThrow('gainDb must be');
  expect(() => cookbookQFromOctaves(0)).toThrow('octaves must be');
  expect(() => octavesFromCookbookQ(1, { fHz: 24000, rateHz: 48000 })).toThrow('fHz must be');
  expect(() => cookbookQFromThreeDbQ(0.4, 6, { fHz: 20000, rateHz: 48000 })).toThrow(/q must be above 0.83/);
});
