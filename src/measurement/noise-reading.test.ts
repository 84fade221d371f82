import { describe, expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { noisePeriods } from '../signals/noise-segment.ts';
import { recordingFromArrays } from '../signals/recording.ts';
import { resampled } from '../signals/resample.ts';
import type { NoiseSegment } from '../signals/track.ts';
import { noiseDensity } from './noise-density.ts';
import { noiseReading } from './noise-reading.ts';
import type { BandLevels } from './reading.ts';

const RATE_HZ = 32_000;
const START = 16_000;
const segment: NoiseSegment = {
  kind: 'noise',
  side: 'both',
  startS: 0.5,
  durationS: 5,
  spectrum: 'pink',
  levelDbfs: -12,
  seed: 4,
  relation: 'same',
  periodSamples: 32_768,
  fromHz: 30,
  toHz: 12_000,
};

/** The segment as played for `seconds`, its periods one after the other. */
function played(seconds = 5, side: 'left' | 'right' = 'left', of = segment): Float64Array {
  const period = noisePeriods(of, RATE_HZ)[side];
  return Float64Array.from({ length: seconds * RATE_HZ }, (_, n) => period[n % period.length]);
}

interface Recorded {
  gain?: number;
  noise?: number;
  slope?: number;
  sound?: Float64Array;
  of?: NoiseSegment;
}

/** The noise recorded by a clock `slope` times as fast, and read. */
function read({ gain = 1, noise = 0, slope = 1, sound = played(), of = segment }: Recorded = {}): BandLevels | null {
  const frames = START + Math.floor((sound.length - 64) * slope);
  const samples = Float64Array.from({ length: frames }, (_, n) => noise * gauss(9, n));
  resampled(sound, 0, 1 / slope, frames - START).forEach((value, n) => {
    samples[START + n] += gain * value;
  });
  const recording = recordingFromArrays([samples], RATE_HZ);
  const background = noise > 0 ? noiseDensity(recording, 0, [{ start: 0, length: START }], RATE_HZ) : null;
  const event = { segment: of, start: START, end: START + of.durationS * RATE_HZ * slope };
  return noiseReading(recording, 0, event, slope, RATE_HZ, background, () => 0);
}
const levelsOf = (bands: BandLevels | null): number[] => (bands?.levelDb ?? []).map((level) => level ?? Number.NaN);
const worst = (bands: BandLevels | null, wantedDb: number): number =>
  Math.max(...levelsOf(bands).map((level) => Math.abs(level - wantedDb)));

describe('pink noise through a known gain', () => {
  test('is flat within 0.3 dB at that gain, in every third octave it covers', () => {
    const bands = read({ gain: 0.1 });
    // 31.6 Hz is the lowest middle whose band the noise fills, 10 kHz the highest.
    expect(bands?.fHz[0]).toBeCloseTo(1000 * 10 ** -1.4, 6);
    expect(bands?.fHz.at(-1)).toBeCloseTo(10_000, 6);
    expect(bands?.fHz.length).toBe(25);
    expect(worst(bands, -20)).toBeLessThan(0.3);
  });

  test.each([1.0002, 0.9995])('and so it is through a clock %f times as fast', (slope) => {
    expect(worst(read({ gain: 0.5, slope }), 20 * Math.log10(0.5))).toBeLessThan(0.3);
  });

  test('is what a filter leaves of it', () => {
    // The mean of a sample and the one before: a gain of cos(pi f / rate).
    const sound = played();
    const bands = read({ sound: sound.map((x, n) => 0.5 * (x + (n > 0 ? sound[n - 1] : 0))) });
    bands?.fHz.forEach((fHz, i) => {
      if (fHz > 8000) return;
      const gainDb = 20 * Math.log10(Math.cos((Math.PI * fHz) / RATE_HZ));
      expect(Math.abs((bands.levelDb[i] as number) - gainDb)).toBeLessThan(0.3);
    });
  });

  test('of the right side is read where the sides play noises of their own', () => {
    const right: NoiseSegment = { ...segment, side: 'right', relation: 'independent', seedRight: 77 };
    expect(worst(read({ sound: played(5, 'right', right), of: right }), 0)).toBeLessThan(0.3);
  });

  test('says nothing of the bands in which the background is louder than a tenth of it', () => {
    // White background: it rises against pink noise by 3 dB an octave and takes the treble first.
    const levels = read({ gain: 0.1, noise: 0.002 })?.levelDb ?? [];
    const known = levels.map((level) => level !== null);
    expect(known[0]).toBe(true);
    expect(known.at(-1)).toBe(false);
    expect(known.indexOf(false)).toBe(known.lastIndexOf(true) + 1);
    for (const level of levels) if (level !== null) expect(Math.abs(level + 20)).toBeLessThan(0.5);
  });
});

describe('nothing is read', () => {
  test('of less than one period and what it takes to settle', () => {
    // 0.3 s to settle, 0.05 s of margin, 1.024 s for a period.
    expect(read({ sound: played(1.36) })).toBeNull();
    expect(read({ sound: played(1.4) })).not.toBeNull();
  });

  test('where the description does not say how the noise was made', () => {
    const { periodSamples, ...foreign } = segment;
    expect(periodSamples).toBe(32_768);
    expect(read({ of: foreign })).toBeNull();
  });

  test('where nothing was recorded: every band is unknown', () => {
    const bands = read({ gain: 0, noise: 0.001 });
    expect(bands?.levelDb.every((level) => level === null)).toBe(true);
  });
});
