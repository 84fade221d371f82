import { describe, expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { type Recording, recordingFromArrays } from '../signals/recording.ts';
import { type Survey, survey } from './survey.ts';

const RATE_HZ = 48_000;
const STEP = 1 / 32_768;

/** As a 16-bit converter writes it: rounded, and clipped at full scale. */
function converted(samples: Float64Array): Recording {
  const numbers = samples.map((x) => Math.max(-1, Math.min(1 - STEP, Math.round(x / STEP) * STEP)));
  return recordingFromArrays([numbers], RATE_HZ, STEP);
}
const sine = (fHz: number, amplitude: number, seconds = 1): Float64Array =>
  Float64Array.from(
    { length: seconds * RATE_HZ },
    (_, n) => amplitude * Math.sin((2 * Math.PI * fHz * n) / RATE_HZ + 0.3),
  );
const surveyOf = (samples: Float64Array): Survey => survey(converted(samples), 0);

describe('a sine', () => {
  test('shows its peak, its rms, its mean', () => {
    const { peak, rms, mean, notFinite } = surveyOf(sine(100, 0.5).map((x) => x + 0.1));
    expect(peak).toBeCloseTo(0.6, 3);
    expect(mean).toBeCloseTo(0.1, 4);
    expect(rms).toBeCloseTo(Math.hypot(0.5 / Math.SQRT2, 0.1), 4);
    expect(notFinite).toBe(0);
  });

  test.each([20, 50, 100, 1000])('of %i Hz at full scale is not clipped: its tops are round', (fHz) => {
    expect(surveyOf(sine(fHz, 1)).flatTops).toEqual([]);
  });

  test.each([3, 5, 12])(
    'of %i Hz at full scale creeps up to its first top on each side and has no flat one after',
    (fHz) => {
      // It rises by less than a step a sample there. Two are too few to be called clipping.
      expect(surveyOf(sine(fHz, 1, 3)).flatTops.length).toBeLessThanOrEqual(2);
      const growing = sine(fHz, 1, 3).map((x, n) => x * (0.6 + (0.4 * n) / (3 * RATE_HZ)));
      expect(surveyOf(growing).flatTops.length).toBeLessThanOrEqual(2);
    },
  );

  test.each([20, 50, 100, 1000, 4000])('of %i Hz, 3 dB too loud, is: two flat tops a period', (fHz) => {
    const { flatTops, peak } = surveyOf(sine(fHz, Math.SQRT2));
    expect(peak).toBeGreaterThan(0.9999);
    expect(flatTops.length).toBeGreaterThanOrEqual(2 * fHz - 2);
    // Limited above 45 degrees: a quarter of the time on either side.
    const share = flatTops.reduce((sum, { length }) => sum + length, 0) / RATE_HZ;
    expect(Math.abs(share - 0.5)).toBeLessThan(fHz > 2000 ? 0.2 : 0.05);
  });

  test('limited at half of full scale is flat there', () => {
    const { flatTops } = surveyOf(sine(100, 1).map((x) => Math.max(-0.5, Math.min(0.5, x))));
    expect(flatTops.length).toBeGreaterThanOrEqual(198);
  });

  test('limited on one side only is flat on that side', () => {
    const { flatTops } = surveyOf(sine(100, 1).map((x) => Math.min(0.9, x)));
    // The other side reaches higher: that is where the recording would clip.
    expect(flatTops).toEqual([]);
    expect(surveyOf(sine(100, 0.9).map((x) => Math.min(0.85, x))).flatTops.length).toBeGreaterThanOrEqual(99);
  });
});

test('noise is neither clipped nor dead', () => {
  const { flatTops, deadRuns, hushedRuns } = surveyOf(
    Float64Array.from({ length: 2 * RATE_HZ }, (_, n) => 0.1 * gauss(1, n)),
  );
  expect([flatTops, deadRuns, hushedRuns]).toEqual([[], [], []]);
});

describe('a stretch of one value', () => {
  const dead = (length: number, value = 0): Survey['deadRuns'] => {
    const samples = sine(440, 0.3);
    samples.fill(value, 10_000, 10_000 + length);
    return survey(recordingFromArrays([samples], RATE_HZ), 0).deadRuns;
  };

  test('is dead from 2 ms on, and listed with its place and its value', () => {
    expect(dead(96)).toEqual([{ start: 10_000, length: 96, value: 0 }]);
    expect(dead(95)).toEqual([]);
    expect(dead(500, 0.25)).toEqual([{ start: 10_000, length: 500, value: 0.25 }]);
  });

  test('is one run however the recording is read in pieces', () => {
    const samples = sine(440, 0.3, 4);
    samples.fill(0, 65_000, 67_000);
    const runs = survey(recordingFromArrays([samples], RATE_HZ), 0).deadRuns;
    expect(runs).toEqual([{ start: 65_000, length: 2000, value: 0 }]);
  });

  test('at the end of the recording counts too', () => {
    const samples = sine(440, 0.3);
    samples.fill(0, 47_000);
    expect(survey(recordingFromArrays([samples], RATE_HZ), 0).deadRuns).toEqual([
      { start: 47_000, length: 1000, value: 0 },
    ]);
  });
});

describe('a hush', () => {
  const hushed = (length: number, value: number): Survey['hushedRuns'] => {
    const samples = sine(440, 0.3);
    samples.fill(value, 10_000, 10_000 + length);
    return surveyOf(samples).hushedRuns;
  };

  test('is exact silence of 10 ms and more', () => {
    expect(hushed(480, 0)).toEqual([{ start: 10_000, length: 480 }]);
    expect(hushed(479, 0)).toEqual([]);
    expect(hushed(480, STEP)).toEqual([]);
  });
});

describe('blocks of 10 ms', () => {
  test('carry the mean square of each', () => {
    const samples = new Float64Array(1000);
    samples.fill(0.5, 480, 960);
    const { blockPower, blockFrames } = survey(recordingFromArrays([samples], RATE_HZ), 0);
    expect(blockFrames).toBe(480);
    expect([...blockPower]).toEqual([0, 0.25]);
  });
});

test('an empty recording has nothing, and no number that is none', () => {
  const nothing = survey(recordingFromArrays([[]], RATE_HZ), 0);
  expect(nothing).toMatchObject({ peak: 0, mean: 0, rms: 0, flatTops: [], hushedRuns: [], notFinite: 0 });
  expect(nothing.deadRuns).toEqual([]);
  expect(nothing.blockPower.length).toBe(0);
});

test('the second input is surveyed for itself, and what is no number is counted', () => {
  const recording = recordingFromArrays([sine(100, 0.1), sine(100, 0.7)], RATE_HZ);
  expect(survey(recording, 1).peak).toBeCloseTo(0.7, 3);
  expect(survey({ ...recording, notFinite: () => 3 }, 0).notFinite).toBe(3);
});
