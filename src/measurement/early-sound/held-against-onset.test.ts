import { expect, test } from 'vitest';
import type { EarlySound } from './early-sound.ts';
import { earlierSoundS, heldAgainstOnset } from './held-against-onset.ts';

const BAND = { low: 250, high: 4000, openHigh: false };
const onset = (arrivalS: number, change: Partial<EarlySound> = {}): EarlySound => ({
  arrivalS,
  sign: 1,
  explained: 0.98,
  rivalry: 0.1,
  allPassRivalry: 3,
  atEdge: false,
  ...change,
});

test('an arrival that begins where its phase says stands, and nothing can hide before it', () => {
  expect(heldAgainstOnset(0.002, onset(0.00203), BAND)).toEqual({ arrivalS: 0.002, doubtS: 0, agreed: true });
  expect(heldAgainstOnset(0.002, onset(0.002, { rivalry: 0.7 }), BAND).agreed).toBe(false);
});

test('one that begins elsewhere within a period is taken in the middle, with half the distance as doubt', () => {
  const held = heldAgainstOnset(0.002, onset(0.0014), BAND);
  expect(held.arrivalS).toBeCloseTo(0.0017, 9);
  expect(held.doubtS).toBeCloseTo(0.0003, 9);
  expect(held.agreed).toBe(false);
});

test('one that begins more than a period away is the onset’s, with an eighth of a period as doubt', () => {
  const held = heldAgainstOnset(0.004, onset(0.001), BAND);
  expect(held.arrivalS).toBe(0.001);
  expect(held.doubtS).toBeCloseTo(0.12e-3, 9);
});

test('an onset at the edge of its window, or none, says nothing', () => {
  for (const early of [null, onset(-0.01, { atEdge: true })]) {
    expect(heldAgainstOnset(0.002, early, BAND)).toEqual({ arrivalS: 0.002, doubtS: 0, agreed: false });
    expect(earlierSoundS(0.002, early)).toBe(0);
  }
});

test('a time reference is doubted by a plain onset well before it, and by no other', () => {
  expect(earlierSoundS(0.002, onset(0.0008))).toBeCloseTo(0.0012, 9);
  expect(earlierSoundS(0.002, onset(0.0019))).toBe(0);
  expect(earlierSoundS(0.002, onset(0.0031))).toBe(0);
  expect(earlierSoundS(0.002, onset(0.0008, { rivalry: 0.99 }))).toBe(0);
});
