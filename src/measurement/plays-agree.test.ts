import { describe, expect, test } from 'vitest';
import type { SweepSegment } from '../signals/track.ts';
import { agreedPoints, sameSweep } from './plays-agree.ts';
import type { Response } from './reading.ts';

const play = (levelDb: (number | null)[], valid = levelDb.map(() => true)): Response => ({
  fHz: levelDb.map((_, i) => 100 * 2 ** (i / 12)),
  levelDb,
  phaseDeg: levelDb.map(() => 0),
  valid,
  levelSigmaDb: levelDb.map(() => 0.3),
});

describe('plays of one sweep', () => {
  test('agree where their levels lie within 2 dB of each other', () => {
    expect(agreedPoints([play([0, 1, 2]), play([1.9, 0, 0.1])])).toEqual([true, true, true]);
  });

  test('do not agree where they lie further apart, and a twelfth of an octave beside', () => {
    const flat = play([0, 0, 0, 0, 0, 0]);
    expect(agreedPoints([flat, play([0, 0, 2.1, 0, 0, 0])])).toEqual([true, false, false, false, true, true]);
    expect(agreedPoints([flat, flat, play([-9, 0, 0, 0, 0, 0])])).toEqual([false, false, true, true, true, true]);
  });

  test('are compared only where both know the level', () => {
    expect(agreedPoints([play([0, 0]), play([9, null], [false, true])])).toEqual([true, true]);
    expect(agreedPoints([play([0, null])])).toEqual([true, true]);
  });

  test('have one side, one band, one length and one level', () => {
    const sweep: SweepSegment = {
      kind: 'sweep',
      startS: 1,
      durationS: 2,
      side: 'left',
      fromHz: 20,
      toHz: 20_000,
      levelDbfs: -12,
    };
    expect(sameSweep(sweep, { ...sweep, startS: 5 })).toBe(true);
    expect(sameSweep(sweep, { ...sweep, side: 'right' })).toBe(false);
    expect(sameSweep(sweep, { ...sweep, levelDbfs: -6 })).toBe(false);
  });
});
