import { describe, expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { recordingFromArrays } from '../signals/recording.ts';
import { exponentialSweep } from '../signals/sweep.ts';
import type { SweepSegment } from '../signals/track.ts';
import { placeOfSweeps } from './sweep-search.ts';

const RATE_HZ = 16_000;
const sweep = (startS: number, fromHz = 60, toHz = 6000): SweepSegment => ({
  kind: 'sweep',
  side: 'left',
  startS,
  durationS: 0.8,
  fromHz,
  toHz,
  levelDbfs: -6,
});

/** The sweeps as recorded from `offset` samples on, in noise. */
function recorded(sweeps: SweepSegment[], offset: number, noise: number, frames = 4 * RATE_HZ) {
  const samples = Float64Array.from({ length: frames }, (_, n) => noise * gauss(3, n));
  for (const one of sweeps) {
    const first = Math.ceil(offset + one.startS * RATE_HZ);
    const offsetS = (first - offset) / RATE_HZ - one.startS;
    exponentialSweep(one, RATE_HZ, { offsetS }).forEach((value, n) => {
      if (first + n >= 0 && first + n < frames) samples[first + n] += value;
    });
  }
  return recordingFromArrays([samples], RATE_HZ);
}
const placeIn = (sweeps: SweepSegment[], ...rest: [number, number, number?]) =>
  placeOfSweeps(recorded(sweeps, ...rest), 0, sweeps, RATE_HZ, RATE_HZ);

describe('the place of sweeps', () => {
  test.each([0, 4321.4, -700])('is found within a sample where the track begins at sample %f', (offset) => {
    const place = placeIn([sweep(0.5), sweep(1.8)], offset, 0.001);
    expect(Math.abs((place?.offset ?? Number.NaN) - offset)).toBeLessThanOrEqual(1);
    expect(place?.each.length).toBe(2);
  });

  test('is found with as much noise as sound', () => {
    // The sweep has an rms of 0.35.
    const place = placeIn([sweep(0.5)], 4000, 0.35);
    expect(Math.abs((place?.offset ?? Number.NaN) - 4000)).toBeLessThanOrEqual(2);
  });

  test('fits all of them together: sweeps of two bands in their order', () => {
    const pair = [sweep(0.5), sweep(1.8, 300, 6000)];
    const place = placeIn(pair, 2000, 0.01);
    expect(Math.abs((place?.offset ?? Number.NaN) - 2000)).toBeLessThanOrEqual(1);
  });

  test('is as clear as the faintest of them', () => {
    const place = placeIn([sweep(0.5), { ...sweep(1.8), levelDbfs: -30 }], 2000, 0.01);
    expect(place?.clearness).toBe(Math.min(...(place?.each ?? [])));
    expect((place?.each[0] ?? 0) / (place?.each[1] ?? 0)).toBeGreaterThan(5);
  });

  test('is none in a tune', () => {
    // A new chord every quarter of a second, each of six harmonics that die away.
    const samples = Float64Array.from({ length: 4 * RATE_HZ }, (_, n) => {
      const since = (n % 4000) / RATE_HZ;
      const root = 110 * 2 ** (((5 * Math.floor(n / 4000)) % 12) / 12);
      let sum = 0;
      for (let h = 1; h <= 6; h++) sum += Math.sin(2 * Math.PI * h * root * since) / h;
      return 0.2 * sum * Math.exp(-6 * since);
    });
    expect(placeOfSweeps(recordingFromArrays([samples], RATE_HZ), 0, [sweep(0.5)], RATE_HZ, RATE_HZ)).toBeNull();
  });

  test('is none in noise, in silence, or where one of two is missing', () => {
    const both = [sweep(0.5), sweep(1.8)];
    expect(placeOfSweeps(recorded([], 0, 0.1), 0, both, RATE_HZ, RATE_HZ)).toBeNull();
    expect(placeOfSweeps(recorded([], 0, 0), 0, both, RATE_HZ, RATE_HZ)).toBeNull();
    expect(placeOfSweeps(recorded([sweep(0.5)], 0, 0.01), 0, both, RATE_HZ, RATE_HZ)).toBeNull();
  });

  test('is none for no sweep, and none in an empty recording', () => {
    expect(placeOfSweeps(recorded([], 0, 0.1), 0, [], RATE_HZ, RATE_HZ)).toBeNull();
    expect(placeOfSweeps(recordingFromArrays([[]], RATE_HZ), 0, [sweep(0.5)], RATE_HZ, RATE_HZ)).toBeNull();
  });
});
