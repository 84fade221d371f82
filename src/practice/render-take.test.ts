import { describe, expect, test } from 'vitest';
import { trackSchema } from '../signals/track.ts';
import { placeOf, withPlace } from './car.ts';
import { carFromSeed } from './car-from-seed.ts';
import type { RecorderSettings } from './recorder.ts';
import { renderTake } from './render-take.ts';
import type { TakeRequest } from './take-request.ts';
import { trackAudio } from './track-audio.ts';

const NO_NOISE = { levelDb: -400, character: 'white' as const, lines: [] };
const marker = (startS: number, side: 'left' | 'right') => ({
  kind: 'marker' as const,
  side,
  startS,
  durationS: 0.08,
  fromHz: 4000,
  toHz: 12_000,
  levelDbfs: -18,
});

/** Marker on the right, then one sweep on `side`, at `rateHz`. */
function sweepTrack(side: 'left' | 'right' | 'both', fromHz: number, toHz: number, rateHz = 48_000) {
  return trackSchema.parse({
    schema: 'kickpanel.track/1',
    kind: 'sweep',
    rateHz,
    channels: 2,
    durationS: 3.2,
    segments: [
      { kind: 'silence', startS: 0, durationS: 0.3 },
      marker(0.3, 'right'),
      { kind: 'sweep', side, startS: 1, durationS: 1.5, fromHz, toHz, levelDbfs: -12, fadeInS: 0.03, fadeOutS: 0.01 },
    ],
  });
}

/** Fourier sum of samples that stand at `timeS(n)`, times their spacing. */
function transformAt(samples: Float64Array, fHz: number, timeS: (n: number) => number, from = 0, to = samples.length) {
  let re = 0;
  let im = 0;
  for (let n = Math.max(0, from); n < Math.min(to, samples.length); n++) {
    const angle = 2 * Math.PI * fHz * timeS(n);
    re += samples[n] * Math.cos(angle);
    im -= samples[n] * Math.sin(angle);
  }
  const spacing = timeS(1) - timeS(0);
  return { re: re * spacing, im: im * spacing };
}

/** Measured over true: level in dB and phase in degrees at each frequency, from the raw samples and the track's clock. */
function deviation(request: TakeRequest, fHz: number[]) {
  const recorder: Partial<RecorderSettings> = { bits: 32, noise: NO_NOISE, ...request.recorder };
  const take = renderTake({ ...request, recorder, fHz });
  const { startS, driftPpm, stimuli } = take.truth;
  const [stimulus] = stimuli;
  const stretch = 1 + driftPpm * 1e-6;
  const { rateHz } = request.track;
  const segment = request.track.segments[stimulus.segment];
  const audio = trackAudio(request.track)[stimulus.side === 'right' ? 'right' : 'left'];
  const start = Math.round(segment.startS * rateHz);
  const trackTime = (n: number) => n / rateHz;
  const heardTime = (m: number) => (m / take.rateHz - startS) / stretch;
  const from = Math.round((startS + segment.startS - 0.1) * take.rateHz);
  return fHz.map((f, k) => {
    const played = transformAt(audio, f, trackTime, start, start + Math.ceil(segment.durationS * rateHz) + 2);
    const heard = transformAt(take.samples[0], f, heardTime, from);
    const level = 20 * Math.log10(Math.hypot(heard.re, heard.im) / Math.hypot(played.re, played.im));
    const turn =
      Math.atan2(heard.im, heard.re) -
      Math.atan2(played.im, played.re) +
      2 * Math.PI * f * (stimulus.firstDirectS ?? 0);
    const phase = (turn * 180) / Math.PI - stimulus.response.phaseDeg[k];
    return { db: level - stimulus.response.levelDb[k], deg: phase - 360 * Math.round(phase / 360) };
  });
}

describe('a noiseless linear take holds exactly the response, start and drift it says', () => {
  const cases: [string, TakeRequest, number[]][] = [
    [
      'a door against the other tweeter',
      {
        track: sweepTrack('left', 30, 8000),
        car: carFromSeed(3),
        on: ['door-left', 'tweeter-right'],
        recorder: { driftPpm: 43, startS: 0.7556 },
        seed: 1,
      },
      [50, 80, 120, 250, 600, 1500, 3000],
    ],
    [
      'the anchor itself',
      {
        track: sweepTrack('right', 1000, 20_000),
        car: carFromSeed(4),
        on: ['tweeter-right'],
        recorder: { driftPpm: -181, startS: 1.23456 },
        seed: 1,
      },
      [2500, 5000, 9000, 14_000, 18_000],
    ],
    [
      'a tweeter at 44.1 kHz',
      {
        track: sweepTrack('left', 1000, 20_000),
        car: carFromSeed(5),
        on: ['tweeter-left', 'tweeter-right'],
        recorder: { rateHz: 44_100, driftPpm: 97, startS: 0.41 },
        seed: 1,
      },
      [2500, 5000, 9000, 14_000, 18_000],
    ],
    [
      'a sub',
      {
        track: sweepTrack('both', 15, 300),
        car: carFromSeed(6, 'hard'),
        on: ['sub', 'tweeter-right'],
        recorder: { driftPpm: 5, startS: -0.1, durationS: 3.6 },
        seed: 1,
      },
      [20, 30, 45, 60, 80, 120],
    ],
    [
      'a 44.1 kHz track of a whole side',
      {
        track: sweepTrack('left', 30, 16_000, 44_100),
        car: carFromSeed(7, 'ordinary', { system: 'three-way' }),
        on: ['door-left', 'mid-left', 'tweeter-left', 'sub'],
        recorder: { driftPpm: -12 },
        seed: 1,
      },
      [50, 200, 1000, 3000, 8000, 15_000],
    ],
  ];
  test.each(cases)('%s', (_, request, fHz) => {
    for (const { db, deg } of deviation(request, fHz)) {
      expect(Math.abs(db)).toBeLessThan(0.05);
      // 0.05 sample at 48 kHz is 0.38 degrees per kHz.
      expect(Math.abs(deg)).toBeLessThan(0.5);
    }
  });

  test('solved in time at a small level it is the same', () => {
    const car = { ...carFromSeed(3), volumeDb: -30 };
    const request: TakeRequest = {
      track: sweepTrack('left', 30, 8000),
      car,
      on: ['door-left', 'tweeter-right'],
      seed: 1,
      mode: 'nonlinear',
    };
    for (const { db, deg } of deviation(request, [60, 120, 600, 2500])) {
      expect(Math.abs(db)).toBeLessThan(0.05);
      expect(Math.abs(deg)).toBeLessThan(0.5);
    }
  });
});

describe('the truth of a take', () => {
  const car = carFromSeed(3);
  const track = sweepTrack('left', 30, 8000);

  test('gives the arrival as the difference of distances over the speed of sound, and channel delays', () => {
    const delayed = withPlace(car, 'door-left', { channelDelayS: 0.002 });
    const { truth } = renderTake({ track, car: delayed, on: ['door-left', 'tweeter-right'], seed: 1, fHz: [100] });
    const metres = placeOf(car, 'door-left').cabin.distanceM - placeOf(car, 'tweeter-right').cabin.distanceM;
    const speed = 331.3 * Math.sqrt(1 + car.airTemperatureC / 273.15);
    expect(truth.anchor).toBe('tweeter-right');
    expect(truth.stimuli[0].arrivalS).toBeCloseTo(metres / speed + 0.002, 12);
  });

  test('turns the sign of polarity with each inversion on the way', () => {
    const sign = (change: Parameters<typeof withPlace>[2], recorder: Partial<RecorderSettings> = {}) =>
      renderTake({
        track,
        car: withPlace(car, 'door-left', change),
        on: ['door-left', 'tweeter-right'],
        recorder,
        seed: 1,
        fHz: [100],
      }).truth.stimuli[0].polaritySign;
    expect(sign({})).toBe(1);
    expect(sign({ wiringSign: -1 })).toBe(-1);
    expect(sign({ wiringSign: -1, processorSign: -1 })).toBe(1);
    expect(sign({}, { sign: -1 })).toBe(-1);
  });

  test('says nothing of arrival without markers, and nothing of polarity where several drivers play', () => {
    const bare = { ...track, segments: track.segments.filter(({ kind }) => kind !== 'marker') };
    const alone = renderTake({ track: bare, car, on: ['door-left'], seed: 1, fHz: [100] }).truth;
    expect(alone.stimuli[0].arrivalS).toBeNull();
    expect(alone.hasMarkers).toBe(false);
    const both = renderTake({ track, car, on: ['door-left', 'sub', 'tweeter-right'], seed: 1, fHz: [100] }).truth;
    expect(both.stimuli[0].polaritySign).toBe(0);
    expect(both.stimuli[0].places).toEqual(['door-left', 'sub']);
  });

  test('gives left minus right where each side has its marker', () => {
    const pair = trackSchema.parse({ ...track, kind: 'pair', segments: [marker(0.3, 'left'), marker(0.6, 'right')] });
    const { truth } = renderTake({ track: pair, car, on: ['tweeter-left', 'tweeter-right'], seed: 1 });
    const metres = placeOf(car, 'tweeter-left').cabin.distanceM - placeOf(car, 'tweeter-right').cabin.distanceM;
    expect(truth.leftMinusRightS).toBeCloseTo(metres / (331.3 * Math.sqrt(1 + car.airTemperatureC / 273.15)), 12);
  });

  test('smooths levels by power: near the mean of the fine response', () => {
    const fHz = Array.from({ length: 400 }, (_, k) => 1000 * 2 ** ((k - 199.5) / (12 * 400)));
    const fine = renderTake({ track, car, on: ['door-left', 'tweeter-right'], seed: 1, fHz }).truth.stimuli[0].response;
    const middle = renderTake({ track, car, on: ['door-left', 'tweeter-right'], seed: 1, fHz: [1000] }).truth;
    const mean = fine.levelDb.reduce((total, db) => total + 10 ** (db / 10), 0) / fHz.length;
    expect(middle.stimuli[0].response.levelDbTwelfthOctave[0]).toBeCloseTo(10 * Math.log10(mean), 1);
  });
});

describe('the recorder', () => {
  const request: TakeRequest = {
    track: sweepTrack('left', 30, 8000),
    car: carFromSeed(3),
    on: ['door-left', 'tweeter-right'],
    seed: 9,
    fHz: [100],
  };

  test('writes the same samples for the same request and others for another seed', () => {
    const first = renderTake(request).samples[0];
    expect(renderTake(request).samples[0]).toEqual(first);
    expect(renderTake({ ...request, seed: 10 }).samples[0]).not.toEqual(first);
  });

  test('writes numbers a file of its bits can hold', () => {
    for (const bits of [16, 24] as const) {
      const { samples } = renderTake({ ...request, recorder: { bits } });
      expect(samples[0].every((value) => Number.isInteger(value * 2 ** (bits - 1)) && value >= -1 && value < 1)).toBe(
        true,
      );
    }
  });

  test('has the noise asked for, in the silence before the track', () => {
    const { samples, truth } = renderTake({
      ...request,
      recorder: { startS: 3, noise: { levelDb: -60, character: 'white', lines: [] } },
    });
    const head = samples[0].subarray(0, 3 * 48_000);
    const rms = Math.sqrt(head.reduce((total, value) => total + value * value, 0) / head.length);
    expect(20 * Math.log10(rms)).toBeCloseTo(-60, 1);
    expect(truth.noiseLevelDb).toBe(-60);
  });

  test('reaches the signal-to-noise ratio asked for in the band on test', () => {
    const white = { levelDb: 0, character: 'white' as const, lines: [] };
    const noisy = renderTake({ ...request, recorder: { snrDb: 10, noise: white } });
    const clean = renderTake({ ...request, recorder: { bits: 32, noise: NO_NOISE } }).samples[0];
    // The door's sweep is on from 1 s to 2.5 s of the track; its band is what its crossover leaves of it.
    const heard = clean.subarray(Math.round((0.8 + 1) * 48_000), Math.round((0.8 + 2.5) * 48_000));
    const signalPower = heard.reduce((total, value) => total + value * value, 0) / heard.length;
    const { lowHz, highHz } = noisy.truth.stimuli[0].bandHz;
    // White noise is spread evenly: its share in the band is the band's share of half the rate.
    const noisePower = 10 ** (noisy.truth.noiseLevelDb / 10) * ((highHz - lowHz) / 24_000);
    expect(Math.abs(10 * Math.log10(signalPower / noisePower) - 10)).toBeLessThan(2);
    const louder = renderTake({ ...request, recorder: { snrDb: 4, noise: white } }).truth.noiseLevelDb;
    expect(louder - noisy.truth.noiseLevelDb).toBeCloseTo(6, 9);
  });

  test('gives a second channel on demand: the capsule again, or the source itself', () => {
    const twin = renderTake({ ...request, recorder: { channels: 'twin' } }).samples;
    expect(twin[1]).toEqual(twin[0]);
    const { samples } = renderTake({ ...request, recorder: { channels: 'loop-back' } });
    const peak = samples[1].reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(20 * Math.log10(peak)).toBeCloseTo(-18, 0);
  });
});
