import { describe, expect, test } from 'vitest';
import { type CeilingStep, cleanCeiling } from './clean-ceiling.ts';

/** Steps of 3 dB from -12 dB on. */
function steps(thdDb: (number | null)[], rest: { noiseThdDb?: number; compressionDb?: (number | null)[] } = {}) {
  return thdDb.map(
    (value, i): CeilingStep => ({
      levelDb: -12 + 3 * i,
      thdDb: value,
      noiseThdDb: rest.noiseThdDb ?? null,
      compressionDb: rest.compressionDb?.[i] ?? 0,
    }),
  );
}
const thdOnly = { thdDb: -30, compressionDb: null };
const both = { thdDb: -30, compressionDb: 1 };

describe('the ceiling of distortion', () => {
  test('lies where a straight line between two steps meets the limit', () => {
    // From -36 to -27 dB in 3 dB: the limit lies two thirds of the way.
    const ceiling = cleanCeiling(steps([-50, -36, -27]), thdOnly);
    expect(ceiling.levelDb).toBeCloseTo(-9 + 2, 12);
    expect(ceiling).toMatchObject({ status: 'crossed', bound: 'exact', bracketDb: [-9, -6], limit: 'thd' });
  });

  test('is the first of several crossings', () => {
    expect(cleanCeiling(steps([-33, -27, -40, -20]), thdOnly).levelDb).toBeCloseTo(-10.5, 12);
  });

  test('lies on a step that meets the limit exactly', () => {
    expect(cleanCeiling(steps([-40, -30, -20]), thdOnly).levelDb).toBeCloseTo(-9, 12);
  });

  test('is at least the top step where nothing crosses', () => {
    expect(cleanCeiling(steps([-50, -40, -31]), thdOnly)).toMatchObject({
      status: 'not-reached',
      levelDb: -6,
      bound: 'at-least',
      limit: null,
    });
  });

  test('lies somewhere under the lowest step where that is over the limit already', () => {
    expect(cleanCeiling(steps([-29.9, -40, -20]), thdOnly)).toMatchObject({
      status: 'above-at-first-step',
      levelDb: -12,
      bound: 'at-most',
      bracketDb: null,
    });
  });

  test('is less certain where distortion creeps than where it leaps', () => {
    // 0.5 dB of reading error over 1/2 dB per dB is 1 dB; over 10 dB per dB a third of what is uniform over 3 dB is left.
    expect(cleanCeiling(steps([-31, -29.5]), thdOnly).sigmaDb).toBeCloseTo(Math.hypot(1, 3 / Math.sqrt(12) / 3), 12);
    expect(cleanCeiling(steps([-45, -15]), thdOnly).sigmaDb).toBeCloseTo(Math.hypot(0.05, 3 / Math.sqrt(12) / 3), 12);
    expect(cleanCeiling(steps([-30, -30 + 1e-12]), thdOnly).sigmaDb).toBe(3);
  });
});

describe('a step in the noise', () => {
  test('counts as clear at 10 dB over it and not below', () => {
    expect(cleanCeiling(steps([-36, -27], { noiseThdDb: -46 }), thdOnly).bound).toBe('exact');
    expect(cleanCeiling(steps([-36, -27], { noiseThdDb: -45.9 }), thdOnly)).toMatchObject({
      status: 'crossed',
      levelDb: -9,
      bound: 'at-most',
      sigmaDb: null,
    });
  });

  test('shows that the limit is kept only if its bound, 3 dB up, keeps it', () => {
    expect(cleanCeiling(steps([-33, -33], { noiseThdDb: -33 }), thdOnly)).toMatchObject({
      status: 'not-reached',
      levelDb: -9,
    });
    expect(cleanCeiling(steps([-33, -32.9], { noiseThdDb: -33 }), thdOnly)).toMatchObject({
      status: 'not-reached',
      levelDb: -12,
    });
    expect(cleanCeiling(steps([-32.9, -32.9], { noiseThdDb: -33 }), thdOnly)).toMatchObject({
      status: 'cannot-say',
      levelDb: null,
    });
  });

  test('under the first clear one leaves the ceiling at most there', () => {
    expect(cleanCeiling(steps([-32, -32, -20], { noiseThdDb: -34 }), thdOnly)).toMatchObject({
      status: 'above-at-first-step',
      levelDb: -6,
      bound: 'at-most',
    });
  });

  test('without any reading is passed over', () => {
    expect(cleanCeiling(steps([null, -36, null, -20]), thdOnly)).toMatchObject({ bracketDb: [-9, -3], bound: 'exact' });
    expect(cleanCeiling(steps([null, null]), thdOnly).status).toBe('cannot-say');
  });
});

describe('of two limits', () => {
  test('the one met first counts', () => {
    const first = cleanCeiling(steps([-50, -40, -20], { compressionDb: [0, 0.5, 2] }), both);
    expect(first.compression?.levelDb).toBeCloseTo(-9 + 1, 12);
    expect(first.thd?.levelDb).toBeCloseTo(-9 + 1.5, 12);
    expect(first).toMatchObject({ limit: 'compression', bound: 'exact', levelDb: first.compression?.levelDb });
  });

  test('one that nobody could read leaves the other at most', () => {
    expect(cleanCeiling(steps([null, null, null], { compressionDb: [0, 0.5, 2] }), both)).toMatchObject({
      limit: 'compression',
      bound: 'at-most',
      sigmaDb: null,
    });
    expect(cleanCeiling(steps([null, null, null], { compressionDb: [0, 0.5, 0.9] }), both).status).toBe('cannot-say');
  });

  test('neither reached: at least where both are known', () => {
    expect(cleanCeiling(steps([-50, -50, null], { compressionDb: [0, 0, 0] }), both)).toMatchObject({
      status: 'not-reached',
      levelDb: -9,
    });
  });
});

test('no step, no limit and steps out of order are mistakes', () => {
  expect(() => cleanCeiling([], both)).toThrow('a ceiling needs a step');
  expect(() => cleanCeiling(steps([-40]), { thdDb: null, compressionDb: null })).toThrow('a ceiling needs a limit');
  expect(() => cleanCeiling([...steps([-40, -30])].reverse(), both)).toThrow('steps must rise, got -9, -12 dB');
});

test('one step alone is under the limit or over it', () => {
  expect(cleanCeiling(steps([-40]), both)).toMatchObject({ status: 'not-reached', levelDb: -12 });
  expect(cleanCeiling(steps([-20]), both)).toMatchObject({ status: 'above-at-first-step', levelDb: -12 });
});
