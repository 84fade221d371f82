import { describe, expect, test } from 'vitest';
import { amplitudeFromDb } from '../base/decibel.ts';
import { linearChirp } from './chirp.ts';
import { isRenderableNoise, noisePeriods } from './noise-segment.ts';
import { pinkNoisePair } from './pink-noise.ts';
import { exponentialSweep } from './sweep.ts';
import type { NoiseSegment, TrackDescription, TrackSegment } from './track.ts';
import { trackSchema } from './track.ts';
import { trackAudio } from './track-audio.ts';
import { designTrack } from './track-design/design-track.ts';

const rateHz = 48_000;

function trackOf(segments: object[], durationS = 1, channels = 2): TrackDescription {
  return trackSchema.parse({ schema: 'kickpanel.track/1', kind: 'test', rateHz, channels, durationS, segments });
}

const whole = (track: TrackDescription) => {
  const audio = trackAudio(track);
  return audio.renderBlock(0, audio.frames);
};

const peakOf = (samples: Float64Array) => samples.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);

const sweep = {
  kind: 'sweep',
  side: 'left',
  startS: 0.1,
  durationS: 0.5,
  fromHz: 100,
  toHz: 8000,
  levelDbfs: -12,
  fadeInS: 0.01,
  fadeOutS: 0.005,
};
const marker = {
  kind: 'marker',
  side: 'right',
  startS: 0.7,
  durationS: 0.08,
  fromHz: 4000,
  toHz: 12_000,
  levelDbfs: -18,
};

describe('what plays', () => {
  test('is the sweep and the marker of the shared formulas, each on its side at its sample', () => {
    const [left, right] = whole(trackOf([sweep, marker]));
    const wanted = exponentialSweep(sweep, rateHz);
    for (let n = 0; n < wanted.length; n++) expect(Math.abs(left[4800 + n] - wanted[n])).toBeLessThan(1e-12);
    expect(right.slice(33_600, 33_600 + 3840)).toEqual(linearChirp(marker, rateHz));
    expect(peakOf(left.subarray(0, 4800)) + peakOf(left.subarray(4800 + wanted.length))).toBe(0);
  });

  test('adds up where segments overlap', () => {
    const tone = { kind: 'tone', side: 'both', startS: 0, durationS: 1, fHz: 1000, levelDbfs: -20 };
    const [alone] = whole(trackOf([tone]));
    const [both] = whole(trackOf([tone, sweep]));
    const [other] = whole(trackOf([sweep]));
    for (let n = 0; n < both.length; n++) expect(both[n]).toBeCloseTo(alone[n] + other[n], 14);
  });

  test('of a tone at a quarter of the rate and 45 degrees reaches 0.707 at its samples only', () => {
    const tone = { kind: 'tone', side: 'left', startS: 0, durationS: 0.5, fHz: 12_000, levelDbfs: 0, phaseDeg: 45 };
    const [left] = whole(trackOf([tone]));
    expect(peakOf(left)).toBeCloseTo(Math.SQRT1_2, 12);
  });

  test('of a long tone is as exact at its end as at its start', () => {
    const tone = { kind: 'tone', side: 'left', startS: 0, durationS: 1790, fHz: 1001.953125, levelDbfs: 0 };
    const audio = trackAudio(trackOf([tone], 1795));
    // 171 turns in 8192 samples: the wave repeats with that period for ever.
    const late = audio.renderBlock(8192 * 10_000, 8192)[0];
    const early = audio.renderBlock(0, 8192)[0];
    for (let n = 0; n < 8192; n += 7) expect(Math.abs(late[n] - early[n])).toBeLessThan(1e-8);
  });

  test('of a pulse goes up first and leaves no steady offset, and the reverse of it is its mirror', () => {
    const pulses = {
      kind: 'pulses',
      side: 'left',
      startS: 0.1,
      durationS: 0.5,
      levelDbfs: -6,
      sign: 1,
      widthS: 20 / rateHz,
      tailWidthS: 200 / rateHz,
      pulseStartsS: [0, 0.2, 0.4],
    };
    const [up] = whole(trackOf([pulses]));
    const [down] = whole(trackOf([{ ...pulses, sign: -1 }]));
    expect(Math.max(...up)).toBeCloseTo(amplitudeFromDb(-6), 12);
    expect(Math.min(...up)).toBeCloseTo(-0.1 * amplitudeFromDb(-6), 12);
    expect(up.indexOf(Math.max(...up))).toBe(4800 + 10);
    expect(Math.abs(up.reduce((sum, value) => sum + value, 0))).toBeLessThan(1e-12);
    expect(down.every((value, n) => value === -up[n])).toBe(true);
  });

  test('of a blip glides: as many turns as its mean frequency has in its time', () => {
    const blip = { kind: 'blip', side: 'both', startS: 0, durationS: 0.5, fromHz: 1000, toHz: 1500, levelDbfs: 0 };
    const [left, right] = whole(trackOf([blip]));
    let turns = 0;
    for (let n = 1; n < left.length; n++) if (left[n - 1] < 0 && left[n] >= 0) turns++;
    expect(Math.abs(turns - 625)).toBeLessThanOrEqual(1);
    expect(right).toEqual(left);
  });

  test('outside the track is silence, and half a sample of duration counts as one', () => {
    const audio = trackAudio(trackOf([sweep], 1.00001));
    expect(audio.frames).toBe(48_001);
    expect(peakOf(audio.renderBlock(-500, 500)[0]) + peakOf(audio.renderBlock(audio.frames, 500)[0])).toBe(0);
  });

  test('in one channel is both sides, what they share once', () => {
    const both = { ...sweep, side: 'both' };
    const [mono] = whole(trackOf([both], 1, 1));
    expect(mono).toEqual(whole(trackOf([both]))[0]);
    const [right] = whole(trackOf([marker], 1, 1));
    expect(peakOf(right)).toBeGreaterThan(0.1);
  });
});

describe('noise', () => {
  const noise = {
    kind: 'noise',
    side: 'both',
    startS: 0.1,
    durationS: 0.7,
    spectrum: 'pink',
    levelDbfs: -20,
    seed: 7,
    relation: 'same',
    periodSamples: 8192,
    fromHz: 100,
    toHz: 5000,
    crestLimitDb: 12,
  };

  test('repeats its period exactly and peaks at its level', () => {
    const [left, right] = whole(trackOf([noise]));
    expect(peakOf(left)).toBeCloseTo(0.1, 12);
    expect(right).toEqual(left);
    const steady = left.subarray(4800, 4800 + 33_600);
    for (let n = 8192; n < steady.length; n++) expect(steady[n]).toBe(steady[n - 8192]);
  });

  test('of opposite sides is mirrored, of independent sides is hardly alike, of one side is on that side', () => {
    const [left, mirrored] = whole(trackOf([{ ...noise, relation: 'opposite' }]));
    expect(mirrored.every((value, n) => value === -left[n])).toBe(true);
    const [one, other] = whole(trackOf([{ ...noise, relation: 'independent', seedRight: 8 }]));
    const product = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, n) => sum + value * b[n], 0);
    expect(Math.abs(product(one, other) / Math.sqrt(product(one, one) * product(other, other)))).toBeLessThan(0.3);
    expect(product(one, one) / product(other, other)).toBeCloseTo(1, 1);
    const [silent, right] = whole(trackOf([{ ...noise, side: 'right' }]));
    expect([peakOf(silent), peakOf(right) > 0]).toEqual([0, true]);
  });

  test('of independent sides is the same pair that a reader makes from the first seed', () => {
    const designed = designTrack({ kind: 'noise', rateHz, relation: 'independent', stimulusS: 0.5, seed: 5 });
    if (!designed.ok) throw new Error('the track must be fine');
    const segment = designed.value.segments.find(({ kind }) => kind === 'noise') as NoiseSegment;
    const { left, right } = noisePeriods(segment, rateHz);
    const pair = pinkNoisePair(
      {
        seed: 5,
        periodSamples: segment.periodSamples ?? 0,
        rateHz,
        fromHz: 20,
        toHz: 20_000,
        crestLimitDb: 12,
      },
      'independent',
    );
    const scale = left[0] / pair.left[0];
    for (let n = 0; n < left.length; n += 11) {
      expect(left[n]).toBeCloseTo(scale * pair.left[n], 12);
      expect(right[n]).toBeCloseTo(scale * pair.right[n], 12);
    }
  });

  test('that another program described too briefly stays silent and is named', () => {
    const brief = { kind: 'noise', side: 'both', startS: 0, durationS: 1, spectrum: 'pink', levelDbfs: -12, seed: 1 };
    const audio = trackAudio(trackOf([brief]));
    expect(audio.silentSegments).toMatchObject([brief]);
    expect(peakOf(audio.renderBlock(0, audio.frames)[0])).toBe(0);
    expect(isRenderableNoise(brief as NoiseSegment)).toBe(false);
    expect(() => noisePeriods(brief as NoiseSegment, rateHz)).toThrow(RangeError);
  });
});

test.each<[string, object]>([
  ['of a kind we do not know', { kind: 'whistle' }],
  ['pulses without places', { kind: 'pulses', side: 'left', levelDbfs: 0, sign: 1, widthS: 0.01, tailWidthS: 0.1 }],
  ['blips without a frequency', { kind: 'blip', side: 'left', levelDbfs: 0 }],
  ['sweeps that fall', { kind: 'sweep', side: 'left', fromHz: 1000, toHz: 100, levelDbfs: 0 }],
])('segments %s stay silent and are named', (_name, segment) => {
  const audio = trackAudio(trackOf([{ startS: 0, durationS: 0.5, ...segment }]));
  expect(audio.silentSegments.map(({ kind }: TrackSegment) => kind)).toEqual([(segment as TrackSegment).kind]);
  expect(peakOf(audio.renderBlock(0, audio.frames)[0])).toBe(0);
});
