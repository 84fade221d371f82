import { describe, expect, test } from 'vitest';
import { gauss } from '../../base/random.ts';
import { recordingFromArrays } from '../../signals/recording.ts';
import { exponentialSweep } from '../../signals/sweep.ts';
import type { SweepSegment } from '../../signals/track.ts';
import { foreignFinding } from '../checks/foreign.ts';
import type { QuietStretches } from '../timeline.ts';
import { type ForeignSound, foreignDensityAt, foreignSound } from './foreign-sound.ts';

const RATE_HZ = 16_000;
const START_S = 1;
const sweep = {
  kind: 'sweep',
  side: 'left',
  startS: START_S,
  durationS: 3,
  fromHz: 50,
  toHz: 6000,
  levelDbfs: -12,
  fadeInS: 0.02,
  fadeOutS: 0.01,
} as SweepSegment;
const NOISE = 0.0005;

type Spoil = (samples: Float64Array) => void;

/** A sweep in white noise, one second of noise before it and one after, and what a test does to it. */
function heard(spoil: Spoil = () => {}, noiseBefore = true, segment = sweep): ForeignSound {
  const samples = Float64Array.from({ length: 5 * RATE_HZ }, (_, n) => NOISE * gauss(7, n));
  exponentialSweep(segment, RATE_HZ).forEach((value, n) => {
    samples[START_S * RATE_HZ + n] += value;
  });
  spoil(samples);
  const event = { segment, start: START_S * RATE_HZ, end: (START_S + sweep.durationS) * RATE_HZ };
  const quiet: QuietStretches = {
    before: noiseBefore ? { start: 0, length: 0.9 * RATE_HZ } : null,
    between: [],
    after: null,
  };
  return foreignSound(recordingFromArrays([samples], RATE_HZ), 0, [event], quiet, RATE_HZ);
}

/** Noise of the given strength between two times of the recording, in place of what was there or on top. */
const burst =
  (fromS: number, toS: number, strength: number, share = 1): Spoil =>
  (samples) => {
    for (let n = fromS * RATE_HZ; n < toS * RATE_HZ; n++) samples[n] = share * samples[n] + strength * gauss(11, n);
  };

const findingOf = ({ sweeps: [frames], background }: ForeignSound) =>
  foreignFinding([{ segment: sweep, reading: { snr: { fHz: [], db: [] } }, frames, noise: background }], RATE_HZ);

describe('a sweep in steady noise', () => {
  test.each([true, false])('holds nothing foreign, with quiet before it: %s', (noiseBefore) => {
    const sound = heard(undefined, noiseBefore);
    expect(sound.sweeps[0].length).toBeGreaterThan(80);
    expect(sound.sweeps[0].every(({ density }) => !density)).toBe(true);
    expect(findingOf(sound)).toBeNull();
  });

  test('holds nothing foreign where the sweep itself clicks, for want of fades', () => {
    const { sweeps } = heard(undefined, true, { ...sweep, fadeInS: 0, fadeOutS: 0 });
    expect(sweeps[0].every(({ density }) => !density)).toBe(true);
  });

  test.each([true, false])('tells the density of that noise to 1 dB, with quiet before it: %s', (noiseBefore) => {
    // White noise of standard deviation s has the two-sided density s^2 / rate.
    const density = NOISE ** 2 / RATE_HZ;
    const background = heard(undefined, noiseBefore).background;
    const middle = Array.from(background?.density.slice(8, -60) ?? []);
    const mean = middle.reduce((sum, value) => sum + value, 0) / middle.length;
    expect(Math.abs(10 * Math.log10(mean / density))).toBeLessThan(1);
  });
});

test('a burst is heard where it falls, at its own density', () => {
  // 300 Hz plays at 2.12 s, 2 kHz at 3.31 s.
  const { sweeps } = heard(burst(3.3, 3.55, 0.05));
  const density = 0.05 ** 2 / RATE_HZ;
  expect(foreignDensityAt(sweeps[0], sweep, 300)).toBe(0);
  const atBurst = foreignDensityAt(sweeps[0], sweep, 2100);
  expect(Math.abs(10 * Math.log10(atBurst / density))).toBeLessThan(2);
  expect(foreignDensityAt(sweeps[0], sweep, 5900)).toBeLessThan(density / 100);
});

test('a piece taken from elsewhere shows by the steps at its ends', () => {
  const spoilt = heard((samples) => {
    samples.copyWithin(1.3 * RATE_HZ, 2.4 * RATE_HZ, 2.43 * RATE_HZ);
  });
  const finding = findingOf(spoilt);
  expect(finding?.message).toMatch(/^The wave jumps at 1\.(2|3)/);
  expect(finding?.severity).toBe('limit');
});

test('a series of steps is the car’s own: something rattles', () => {
  const spoilt = heard((samples) => {
    for (let at = 1.15; at < 1.7; at += 0.1) {
      for (let n = Math.round(at * RATE_HZ); n < 1.8 * RATE_HZ; n++) samples[n] += 0.05;
    }
  });
  expect(findingOf(spoilt)?.message ?? '').not.toMatch(/jumps/);
});

test('sound under the background that is always there is sound that is missing', () => {
  const finding = findingOf(heard(burst(3.2, 3.6, NOISE / 5, 0)));
  expect(finding?.message).toMatch(/^From 3\.\d+ s on, while the sweep plays, the recording is 1\d dB quieter/);
});

test('bands that the foreign sound comes near are named', () => {
  const { sweeps, background } = heard(burst(3.3, 3.55, 0.05));
  const reading = { snr: { fHz: [250, 2000, 2500], db: [12, 12, 30] } };
  const finding = foreignFinding([{ segment: sweep, reading, frames: sweeps[0], noise: background }], RATE_HZ);
  expect(finding?.values).toEqual({ fromHz: 2000, toHz: 2000 });
});
