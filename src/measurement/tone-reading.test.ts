import { describe, expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { recordingFromArrays } from '../signals/recording.ts';
import type { ToneReading } from './reading.ts';
import { toneReading } from './tone-reading.ts';

const RATE_HZ = 48_000;

interface Tone {
  fHz: number;
  level?: number;
  /** Amplitudes of orders 2, 3 ... re the fundamental. */
  harmonics?: number[];
  noise?: number;
  durationS?: number;
  startS?: number;
}

/** A recording of 3 s with a tone in it, and what is read of it. */
function read({ fHz, level = 0.1, harmonics = [], noise = 0, durationS = 2, startS = 0.5 }: Tone): ToneReading {
  const start = startS * RATE_HZ;
  const end = start + durationS * RATE_HZ;
  const samples = Float64Array.from({ length: 3 * RATE_HZ }, (_, n) => {
    let value = noise * gauss(11, n);
    if (n < start || n >= end) return value;
    const turn = (2 * Math.PI * fHz * n) / RATE_HZ;
    [1, ...harmonics].forEach((share, i) => {
      value += level * share * Math.sin((i + 1) * turn + i);
    });
    return value;
  });
  const segment = { kind: 'tone', side: 'both', startS, durationS, fHz, levelDbfs: -6 } as const;
  return toneReading(recordingFromArrays([samples], RATE_HZ), 0, { segment, start, end }, RATE_HZ);
}

describe('a tone', () => {
  test.each([40, 1000, 3150, 997.3, 12_000])('of %f Hz reads its level', (fHz) => {
    const reading = read({ fHz });
    expect(reading.levelDbfs as number).toBeCloseTo(-20, 2);
    expect(reading).toMatchObject({ fHz, startS: 0.5 });
  });

  test('reads the distortion it has: 1 % and 0.5 % make 1.118 %', () => {
    for (const fHz of [50, 1000, 3150]) {
      const { thdPct } = read({ fHz, harmonics: [0.01, 0.005] });
      expect((thdPct as number) / Math.hypot(1, 0.5)).toBeCloseTo(1, 2);
    }
  });

  test('reads no distortion where there is none: less than a thousandth of a percent', () => {
    const { thdPct, floorPct } = read({ fHz: 1000 });
    expect(thdPct as number).toBeLessThan(0.001);
    expect(floorPct as number).toBeLessThan(0.001);
  });

  test('in noise has the noise as floor, and reads as much where nothing else is', () => {
    const { thdPct, floorPct, levelDbfs } = read({ fHz: 1000, noise: 0.003 });
    expect(levelDbfs as number).toBeCloseTo(-20, 1);
    expect(floorPct as number).toBeGreaterThan(0.05);
    expect((thdPct as number) / (floorPct as number)).toBeGreaterThan(0.4);
    expect((thdPct as number) / (floorPct as number)).toBeLessThan(2.5);
  });

  test('counts the orders that the recording can hold', () => {
    // Of 8 kHz only the second lies below half the rate with its neighbourhood, of 13 kHz none.
    expect(read({ fHz: 8000, harmonics: [0.02] }).thdPct as number).toBeCloseTo(2, 1);
    expect(read({ fHz: 13_000 })).toMatchObject({ thdPct: null, floorPct: null });
    expect(read({ fHz: 13_000 }).levelDbfs).not.toBeNull();
  });
});

describe('nothing is read', () => {
  const nothing = { levelDbfs: null, thdPct: null, floorPct: null };

  test('of a tone that leaves less than 100 ms between its ends', () => {
    // 50 ms for each end and 50 ms to settle.
    expect(read({ fHz: 1000, durationS: 0.24 })).toMatchObject(nothing);
    expect(read({ fHz: 1000, durationS: 0.26 }).levelDbfs).not.toBeNull();
  });

  test('of one that lies before or behind the recording', () => {
    expect(read({ fHz: 1000, startS: -0.5 })).toMatchObject(nothing);
    expect(read({ fHz: 1000, startS: 2.9 })).toMatchObject(nothing);
  });

  test('of one above the reach of the recorder, and of silence', () => {
    expect(read({ fHz: 22_000 })).toMatchObject(nothing);
    expect(read({ fHz: 1000, level: 0 })).toMatchObject(nothing);
  });
});
