import { describe, expect, test } from 'vitest';
import type { Reading, Response } from '../../measurement/reading.ts';
import { plainNumbers } from '../number-words.ts';
import { bandsPlot } from './bands-plot.ts';
import {
  differenceFeatures,
  differencePlot,
  differenceSentence,
  overlayPlot,
  responseDifference,
} from './comparison-plot.ts';
import { strongestFeature } from './curve-features.ts';
import { distortionPlot, distortionSentence } from './distortion-plot.ts';
import { impulsePlot, impulseSentence } from './impulse-plot.ts';
import { phasePlot, phaseSentence } from './phase-plot.ts';
import { hearingHz } from './plot-options.ts';
import { responsePlot, responseSentence } from './response-plot.ts';

const options = { style: plainNumbers, subject: 'Left door', rangeHz: hearingHz };
const fHz = Array.from({ length: 479 }, (_, n) => 1000 * 2 ** ((n - 270) / 48));
const bump = (f: number, at: number, octaves: number, db: number) =>
  db * Math.exp(-((Math.log2(f / at) / octaves) ** 2));

function readingWith(levelOf: (f: number) => number | null, more: Partial<Reading> = {}): Reading {
  const response: Response = {
    fHz,
    levelDb: fHz.map(levelOf),
    phaseDeg: fHz.map(() => 30),
    valid: fHz.map((f) => f >= 30),
    levelSigmaDb: fHz.map(() => 0.05),
  };
  const quality = {
    usable: true,
    verdict: '',
    peakDbfs: -6,
    input: 1,
    inputs: 1,
    rateHz: 48_000,
    bits: 24,
    durationS: 9,
    problems: [],
  };
  return { schema: 'kickpanel.read/1', reference: 'full-scale', quality, response, withheld: [], ...more };
}

const band = { lowHz: 80, lowSlopeDbPerOctave: 24, highHz: 4000, highSlopeDbPerOctave: 24 };

describe('the response of a take', () => {
  test('says where it plays and what it loses there', () => {
    const reading = readingWith((f) => -20 + bump(f, 212, 0.15, -9), { band });
    const found = strongestFeature(reading.response as Response, band);
    expect(found?.fHz).toBeGreaterThan(205);
    expect(found?.fHz).toBeLessThan(219);
    expect(responseSentence(reading, options)).toMatch(/^It plays from 80 Hz to 4 kHz and loses [78] dB at 21\d Hz\.$/);
  });

  test('does not take the slope at the end of the band for a dip', () => {
    const reading = readingWith((f) => -20 - Math.max(0, 24 * Math.log2(80 / f)), { band });
    expect(strongestFeature(reading.response as Response, band)).toBeNull();
    expect(responseSentence(reading, options)).toBe('It plays from 80 Hz to 4 kHz, within 4 dB of its own trend.');
  });

  test('tints what may not be relied on and marks the feature', () => {
    const plot = responsePlot(
      readingWith((f) => -20 + bump(f, 400, 0.2, 8), { band }),
      options,
    );
    expect(plot?.tints?.[0].to).toBeCloseTo(30, 0);
    expect(plot?.marks?.[0]).toMatchObject({ role: 'stop', label: expect.stringMatching(/^4\d\d Hz, \+\d dB$/) });
  });

  test('says whether its levels are sound pressure', () => {
    expect(
      responsePlot(
        readingWith(() => 80, { reference: 'spl' }),
        options,
      )?.state,
    ).toContain('dB SPL');
    expect(
      responsePlot(
        readingWith(() => -20),
        options,
      )?.state,
    ).toContain('not calibrated');
  });

  test('is absent where there is none', () => {
    const { response: _, ...without } = readingWith(() => 0);
    expect(responsePlot(without, options)).toBeNull();
    expect(phasePlot(without, options)).toBeNull();
  });
});

test('phase breaks where it wraps', () => {
  const reading = readingWith(() => -20, { band });
  const phaseDeg = fHz.map((f) => (f < 1000 ? 170 : -170));
  const plot = phasePlot({ ...reading, response: { ...(reading.response as Response), phaseDeg } }, options);
  const at = fHz.findIndex((f) => f >= 1000);
  expect(Array.from(plot?.curves[0].y ?? []).slice(at - 1, at + 2)).toEqual([170, null, -170]);
  expect(phaseSentence(reading, options)).toBe('Phase in the middle of the band, at 569 Hz, is +30 degrees.');
});

describe('the distortion of a take', () => {
  const grid = [50, 100, 200];
  const distortion = {
    fHz: grid,
    thdPct: [9, 3.4, 1],
    h2Pct: [8, 3, 0.5],
    h3Pct: [4, 1.5, 0.8],
    h4Pct: [null, null, null],
    h5Pct: [null, null, null],
    floorPct: [10, 0.2, 0.1],
    valid: [false, true, true],
  };

  test('names the highest that stands out of the noise', () => {
    expect(
      distortionSentence(
        readingWith(() => 0, { distortion }),
        options,
      ),
    ).toBe('Distortion is highest at 100 Hz, with 3.4 %.');
  });

  test('draws nothing that noise may have made', () => {
    const plot = distortionPlot(
      readingWith(() => 0, { distortion }),
      options,
    );
    expect(Array.from(plot?.curves.at(-1)?.y ?? [])).toEqual([null, 3.4, 1]);
  });
});

test('bands are short level stretches with gaps between them', () => {
  const plot = bandsPlot(
    readingWith(() => 0, { bands: { fHz: [1000, 1258.9], levelDb: [-20, null] } }),
    options,
  );
  expect(plot?.sentence).toBe('The loudest third octave is 1 kHz, at \u221220.0 dB.');
  expect(Array.from(plot?.curves[0].y ?? [])).toEqual([-20, -20, null, null, null, null]);
  const [from, to] = Array.from(plot?.curves[0].x ?? []);
  // A third octave is a tenth of a decade.
  expect(Math.log10(to / from)).toBeCloseTo(0.1, 9);
});

test('the impulse counts milliseconds from the direct sound', () => {
  const samples = new Float64Array(4800);
  samples[1000] = 0.5;
  samples[1048] = -1;
  const impulse = { rateHz: 48_000, arrivalIndex: 1000, samples };
  expect(impulseSentence(impulse, options)).toBe(
    'The highest point of the impulse goes down, 1.00 ms after the direct sound.',
  );
  const plot = impulsePlot(impulse, options);
  const at = Array.from(plot?.curves[0].x ?? []).indexOf(1);
  expect(plot?.curves[0].y[at]).toBe(-100);
  expect(impulsePlot({ ...impulse, samples: new Float64Array(4800) }, options)).toBeNull();
});

describe('two takes', () => {
  const before = { name: 'T1', reading: readingWith(() => -20) };
  const after = { name: 'T2', reading: readingWith((f) => -20 + bump(f, 250, 0.4, 5) - bump(f, 640, 0.2, 4)) };

  test('differ by after less before, where both may be relied on', () => {
    const difference = responseDifference(before.reading, after.reading);
    const at = difference?.fHz.findIndex((f) => f >= 250) ?? 0;
    expect(difference?.levelDb[at]).toBeCloseTo(5, 1);
    expect(difference?.levelDb[0]).toBeNull();
  });

  test('are put into words, the larger difference first', () => {
    const difference = responseDifference(before.reading, after.reading);
    if (!difference) throw new Error('they share a grid');
    expect(differenceFeatures(difference, 1).map(({ value }) => Math.sign(value))).toEqual([1, -1]);
    expect(differenceSentence(difference, 1, options)).toMatch(
      /^The later take has (5\.0|4\.9) dB more at 2\d\d Hz and (4\.0|3\.9) dB less at 6\d\d Hz\.$/,
    );
    expect(differenceSentence(difference, 9, options)).toBe('Nothing differs by more than 9.0 dB.');
  });

  test('are drawn before thin and after strong, with the zone of repeats', () => {
    expect(overlayPlot([before, after], options)?.curves.map(({ role }) => role)).toEqual(['before', 'measured']);
    const plot = differencePlot(before, after, 0.9, options);
    expect(plot?.zones).toEqual([{ from: -0.9, to: 0.9, label: 'less than 1 dB apart' }]);
    expect(plot?.y).toMatchObject({ from: -6, to: 6 });
  });

  test('that share no frequencies cannot be subtracted', () => {
    const { response: _, ...without } = after.reading;
    expect(responseDifference(before.reading, without)).toBeNull();
  });
});
