import { describe, expect, test } from 'vitest';
import type { SweepSegment } from '../../signals/track.ts';
import { thirdOctaves } from '../grids.ts';
import { type PlayedSweep, unlikeRepeats } from './repeats.ts';

const fHz = thirdOctaves(100, 1000);

/** A play of one sweep: its third octaves re -20 dB, null where drowned, and how far they stand over the background. */
function play(
  changesDb: (number | null)[] = [],
  segment: Partial<SweepSegment> = {},
  snrDb: (number | null)[] = [],
): PlayedSweep {
  return {
    segment: {
      kind: 'sweep',
      side: 'left',
      startS: 1,
      durationS: 2,
      fromHz: 50,
      toHz: 2000,
      levelDbfs: -12,
      ...segment,
    },
    reading: {
      bands: { fHz, levelDb: fHz.map((_, i) => (changesDb[i] === null ? null : -20 + (changesDb[i] ?? 0))) },
      // The signal-to-noise grid reaches a band further than the levels.
      snr: { fHz: [fHz[0] / 10 ** 0.1, ...fHz], db: [40, ...fHz.map((_, i) => snrDb[i] ?? 40)] },
    },
  };
}
const all = (db: number): number[] => fHz.map(() => db);

describe('plays of one sweep', () => {
  test('that agree, or differ by what noise does, say nothing', () => {
    expect(unlikeRepeats([play(), play()], false)).toBeNull();
    expect(unlikeRepeats([play(), play(fHz.map((_, i) => (i % 2 === 0 ? 0.6 : -0.6)))], false)).toBeNull();
  });

  test('that are all louder or quieter the second time show a gain that moved', () => {
    expect(unlikeRepeats([play(), play(all(0.69))], false)).toBeNull();
    expect(unlikeRepeats([play(), play(all(-0.71))], false)).toMatchObject({
      code: 'agc',
      values: { changeDb: expect.closeTo(-0.71, 9) },
      message: expect.stringContaining('0.7 dB quieter'),
    });
  });

  test('are compared only where both stand 20 dB over the background', () => {
    expect(unlikeRepeats([play([], {}, all(19.9)), play(all(6))], false)).toBeNull();
    expect(unlikeRepeats([play(), play(all(6), {}, all(19.9))], false)).toBeNull();
    expect(unlikeRepeats([play(), play(all(6), {}, all(20))], false)?.code).toBe('agc');
  });

  test('say nothing of the gain where markers say it better', () => {
    expect(unlikeRepeats([play(), play(all(5))], true)).toBeNull();
  });

  test('that differ in one band show that something happened there, whatever the gain did', () => {
    const changes = all(2);
    changes[4] = 5.1;
    expect(unlikeRepeats([play(), play(changes)], true)).toMatchObject({
      code: 'noise-changed',
      severity: 'limit',
      message: expect.stringContaining('at 251 Hz'),
      values: { changeDb: expect.closeTo(3.1, 9), fromHz: fHz[4], toHz: fHz[4] },
    });
    changes[4] = 4.9;
    expect(unlikeRepeats([play(), play(changes)], true)).toBeNull();
  });

  test('of which one misses what was clear in the other differ, whichever it is', () => {
    const partly: (number | null)[] = fHz.map((_, i) => (i > 5 ? null : 0));
    for (const sweeps of [
      [play(), play(partly)],
      [play(partly), play()],
    ]) {
      expect(unlikeRepeats(sweeps, true)).toMatchObject({
        code: 'noise-changed',
        values: { fromHz: fHz[6], toHz: fHz[10], changeDb: 30 },
      });
    }
    // What was hardly clear may well be missing.
    const faint = play([], {}, all(19.9));
    expect(unlikeRepeats([faint, play(partly)], true)).toBeNull();
    expect(unlikeRepeats([play(fHz.map(() => null)), play(fHz.map(() => null))], false)).toBeNull();
  });

  test('are looked for among all sweeps, each with the next of its kind', () => {
    const right = play(all(-9), { side: 'right' });
    expect(unlikeRepeats([play(), right, play(), right], false)).toBeNull();
    expect(unlikeRepeats([play(), right, play(all(4)), right], false)?.code).toBe('agc');
  });
});

describe('no repeats', () => {
  test.each<[string, Partial<SweepSegment>]>([
    ['another side', { side: 'right' }],
    ['another level', { levelDbfs: -6 }],
    ['another band', { toHz: 1000 }],
    ['another length', { durationS: 1 }],
  ])('%s: nothing to compare', (_, change) => {
    expect(unlikeRepeats([play(), play(all(12), change)], false)).toBeNull();
  });

  test('one sweep, none, or fewer than three bands: nothing to say', () => {
    expect(unlikeRepeats([play()], false)).toBeNull();
    expect(unlikeRepeats([], false)).toBeNull();
    const narrow = (db: number): PlayedSweep =>
      play(
        fHz.map((_, i) => (i < 2 ? db : null)),
        {},
        all(0),
      );
    expect(unlikeRepeats([narrow(0), narrow(8)], false)).toBeNull();
  });
});
