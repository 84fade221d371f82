import { describe, expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { linearChirp } from '../signals/chirp.ts';
import { crossoverSections } from '../signals/filters/crossover.ts';
import { filtered } from '../signals/filters/section-filter.ts';
import { type Recording, recordingFromArrays } from '../signals/recording.ts';
import type { MarkerSegment, TrackDescription } from '../signals/track.ts';
import { anchorOf } from './anchor.ts';
import { locateTrack } from './locate-track.ts';

const RATE_HZ = 32_000;
const START = 9600;

function marker(startS: number, rising: boolean, side: 'left' | 'right'): MarkerSegment {
  const [fromHz, toHz] = rising ? [4000, 12_000] : [12_000, 4000];
  return { kind: 'marker', side, startS, durationS: 0.08, fromHz, toHz, levelDbfs: -18 };
}

/** Opening and closing markers of one side. */
const track: TrackDescription = {
  schema: 'kickpanel.track/1',
  kind: 'pair',
  rateHz: RATE_HZ,
  channels: 2,
  durationS: 3,
  segments: [
    [0.5, true],
    [0.67, false],
    [0.835, true],
    [2, false],
    [2.17, true],
    [2.335, false],
  ].map(([startS, rising]) => marker(startS as number, rising as boolean, 'right')),
};

/** A treble driver: its crossover, and a resonance a good octave below. */
const driver = [
  ...crossoverSections({ family: 'linkwitz-riley', order: 4, fHz: 3000 }, 'high-pass', RATE_HZ),
  ...crossoverSections({ family: 'butterworth', order: 2, fHz: 1200 }, 'high-pass', RATE_HZ),
];

/** The markers through a driver of the given sign and two echoes, in noise, changed by `spoil`. */
function recorded(sign: 1 | -1, noise = 1e-4, spoil: (samples: Float64Array) => void = () => {}): Recording {
  const sound = new Float64Array(3.5 * RATE_HZ);
  for (const segment of track.segments as MarkerSegment[]) {
    const chirp = linearChirp(segment, RATE_HZ);
    for (const [delay, gain] of [
      [0, 1],
      [40, 0.5],
      [131, -0.4],
    ]) {
      const first = START + Math.round(segment.startS * RATE_HZ) + delay;
      chirp.forEach((value, n) => {
        sound[first + n] += sign * gain * value;
      });
    }
  }
  const samples = filtered(driver, sound).map((x, n) => x + noise * gauss(4, n));
  spoil(samples);
  return recordingFromArrays([samples], RATE_HZ);
}

function heard(recording: Recording) {
  const located = locateTrack(recording, 0, track);
  const anchor = anchorOf(recording, located, 'right');
  if (!anchor) throw new Error('no anchor');
  const arrival = anchor.arrival;
  return { anchor, arrival, startS: located.offset / RATE_HZ + arrival.arrivalS };
}

describe('the driver that plays the markers', () => {
  test.each([1, -1] as const)('is heard where its direct sound is, with sign %i, not at its echoes', (sign) => {
    const { anchor, arrival, startS } = heard(recorded(sign));
    expect(Math.abs(startS - START / RATE_HZ)).toBeLessThan(5e-6);
    expect(arrival.sign).toBe(sign);
    expect(anchor).toMatchObject({ side: 'right', markers: 6, bandHz: { low: 4000 * 1.04, high: 12_000 * 0.96 } });
    expect(anchor.snrDb).toBeGreaterThan(40);
  });

  test('stands less clear in more noise', () => {
    const clear = heard(recorded(1, 1e-4)).anchor.snrDb;
    const noisy = heard(recorded(1, 1e-2)).anchor.snrDb;
    // Forty decibels more noise.
    expect(Math.abs(clear - noisy - 40)).toBeLessThan(6);
  });

  test('is heard where it is when a noise strikes one of its markers', () => {
    const struck = recorded(1, 1e-4, (samples) => {
      const last = START + 2.335 * RATE_HZ;
      for (let n = 0; n < 0.03 * RATE_HZ; n++) samples[last + 0.06 * RATE_HZ + n] += 0.3 * gauss(8, n);
    });
    const { anchor, startS } = heard(struck);
    expect(anchor.markers).toBe(5);
    expect(Math.abs(startS - START / RATE_HZ)).toBeLessThan(5e-6);
  });

  test('is none on a side that plays no markers', () => {
    const recording = recorded(1);
    expect(anchorOf(recording, locateTrack(recording, 0, track), 'left')).toBeNull();
  });
});
