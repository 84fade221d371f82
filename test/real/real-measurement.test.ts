// A loudspeaker in a real room: what its measurers published must come out of their recordings.
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { meanPower } from '../../src/measurement/power-curve.ts';
import { readTake } from '../../src/measurement/read-take.ts';
import type { Reading } from '../../src/measurement/reading.ts';
import { linearResponse, longView } from '../../src/measurement/sweep-response.ts';
import type { SweepSegment } from '../../src/signals/track.ts';
import { trackSchema } from '../../src/signals/track.ts';
import { recordingFile, samplesOf } from '../vectors/recording-file.ts';

const folder = new URL('./', import.meta.url);
const track = trackSchema.parse(JSON.parse(readFileSync(new URL('source.track.json', folder), 'utf8')));
const readingOf = (file: string): Reading => readTake(recordingFile(file, folder), track).reading;
const loopBack = readingOf('loopback.wav');
const microphone = readingOf('microphone.wav');
const startS = ({ quality }: Reading): number => quality.startS ?? Number.NaN;

describe('both recordings', () => {
  test.each([
    ['loop-back', loopBack],
    ['microphone', microphone],
  ])('%s: sound, nothing to complain of', (_, { quality }) => {
    expect(quality.usable).toBe(true);
    expect(quality.problems).toEqual([]);
  });

  test('have one take of one sweep: no clock, no reference, and each says why', () => {
    for (const { withheld, quality, arrivalS } of [loopBack, microphone]) {
      expect(quality.driftPpm).toBeUndefined();
      expect(arrivalS).toBeUndefined();
      expect(withheld.map(({ field, code }) => [field, code])).toEqual([
        ['driftPpm', 'no-reference'],
        ['arrivalS', 'no-reference'],
      ]);
    }
  });
});

test('the loop-back begins 286.62 ms after the source file', () => {
  expect(Math.abs(startS(loopBack) * 1000 - 286.62)).toBeLessThan(0.05);
});

test('the direct sound comes 9.89 ms after the loop-back', () => {
  expect(Math.abs((startS(microphone) - startS(loopBack)) * 1000 - 9.89)).toBeLessThan(0.05);
});

test('a wire is flat and keeps its sign', () => {
  const { response, polarity, band } = loopBack;
  const levels = (response?.levelDb ?? []).filter((_, i) => inBand(response?.fHz[i] ?? 0)) as number[];
  expect(Math.max(...levels) - Math.min(...levels)).toBeLessThan(0.05);
  expect(polarity?.sign).toBe(1);
  expect(band).toMatchObject({ lowHz: null, highHz: null });
});

const inBand = (fHz: number): boolean => fHz >= 100 && fHz <= 10_000;

/** The published impulse response seen as a reading sees its own: through the long view about its direct sound. */
function publishedLevelDb(): (fHz: number) => number {
  const recording = recordingFile('published-impulse-response.wav', folder);
  const size = 65_536;
  const samples = new Float64Array(size);
  samples.set(samplesOf(recording));
  const loudest = samples.reduce((best, value, i) => (Math.abs(value) > Math.abs(samples[best]) ? i : best), 0);
  const directS = loudest / recording.rateHz;
  const shape = track.segments[0] as SweepSegment;
  const played = { binHz: 1, power: new Float64Array(2), integral: new Float64Array(2) };
  const impulse = { shape, rateHz: recording.rateHz, size, samples, played, toHz: shape.toHz, tailS: 0.3 };
  const { curve } = linearResponse(impulse, longView(directS, impulse), directS);
  return (fHz) => 10 * Math.log10(meanPower(curve, fHz, 1 / 12));
}

test('microphone over loop-back is the published response within 0.5 dB, one constant taken out', () => {
  // Both sides: a window from 30 ms before the direct sound to 200 ms after it, power over a twelfth of an octave.
  const publishedDb = publishedLevelDb();
  const { fHz = [], levelDb = [], valid = [] } = microphone.response ?? {};
  const differences: number[] = [];
  fHz.forEach((f, i) => {
    if (!inBand(f)) return;
    expect(valid[i] && loopBack.response?.valid[i], `${f} Hz`).toBe(true);
    differences.push((levelDb[i] as number) - (loopBack.response?.levelDb[i] as number) - publishedDb(f));
  });
  expect(differences.length).toBe(319);
  const constant = differences.toSorted((a, b) => a - b)[differences.length >> 1];
  const worst = Math.max(...differences.map((difference) => Math.abs(difference - constant)));
  expect(worst).toBeLessThan(0.5);
});
