import { describe, expect, test } from 'vitest';
import { trackSchema } from '../signals/track.ts';
import { trackAudio as readersTrackAudio } from '../signals/track-audio.ts';
import { pinkPeriod } from './pink-noise.ts';
import { trackAudio } from './track-audio.ts';

const base = { schema: 'kickpanel.track/1', rateHz: 48_000, channels: 2, durationS: 3 };
const track = trackSchema.parse({
  ...base,
  kind: 'sweep',
  segments: [
    { kind: 'silence', startS: 0, durationS: 0.1 },
    { kind: 'marker', side: 'right', startS: 0.1, durationS: 0.08, fromHz: 4000, toHz: 12_000, levelDbfs: -18 },
    { kind: 'marker', side: 'both', startS: 0.25, durationS: 0.08, fromHz: 12_000, toHz: 4000, levelDbfs: -18 },
    {
      kind: 'sweep',
      side: 'left',
      startS: 0.4,
      durationS: 0.71,
      fromHz: 20,
      toHz: 20_000,
      levelDbfs: -12,
      fadeInS: 0.02,
      fadeOutS: 0.01,
    },
    {
      kind: 'tone',
      side: 'both',
      startS: 1.2,
      durationS: 0.2,
      fHz: 1000,
      levelDbfs: -6,
      fadeInS: 0.05,
      fadeOutS: 0.05,
      phaseDeg: 30,
    },
    {
      kind: 'noise',
      side: 'both',
      startS: 1.5,
      durationS: 0.5,
      spectrum: 'pink',
      levelDbfs: -12,
      seed: 7,
      relation: 'independent',
      seedRight: 99,
      periodSamples: 8192,
      crestLimitDb: 12,
      fromHz: 50,
      toHz: 10_000,
      fadeInS: 0.05,
      fadeOutS: 0.05,
    },
    {
      kind: 'noise',
      side: 'both',
      startS: 2.05,
      durationS: 0.2,
      spectrum: 'pink',
      levelDbfs: -20,
      seed: 3,
      relation: 'opposite',
      periodSamples: 8192,
      fromHz: 100,
      toHz: 2000,
    },
    {
      kind: 'pulses',
      side: 'both',
      startS: 2.3,
      durationS: 0.3,
      levelDbfs: -12,
      sign: -1,
      widthS: 0.002,
      tailWidthS: 0.02,
      pulseStartsS: [0, 0.18],
    },
    {
      kind: 'blip',
      side: 'left',
      startS: 2.7,
      durationS: 0.12,
      fromHz: 200,
      toHz: 300,
      levelDbfs: -12,
      fadeInS: 0.02,
      fadeOutS: 0.02,
    },
    { kind: 'something-new', startS: 2.9, durationS: 0.05 },
  ],
});

test('the two independent programs make the same sound of one description', () => {
  const ours = trackAudio(track);
  const [left, right] = readersTrackAudio(track).renderBlock(0, 144_000);
  for (const [one, other] of [
    [ours.left, left],
    [ours.right, right],
  ]) {
    let worst = 0;
    for (let n = 0; n < 144_000; n++) worst = Math.max(worst, Math.abs(one[n] - other[n]));
    expect(worst).toBeLessThan(1e-9);
    expect(one.some((value) => value !== 0)).toBe(true);
  }
});

test('a sweep is the textbook wave on its side only', () => {
  const sweep = { kind: 'sweep', side: 'left', startS: 0.5, durationS: 1, fromHz: 100, toHz: 1000, levelDbfs: -6.0206 };
  const audio = trackAudio(trackSchema.parse({ ...base, kind: 'sweep', segments: [sweep] }));
  const perEfoldS = 1 / Math.log(10);
  const t = 0.3;
  const wanted = 0.5 * Math.sin(2 * Math.PI * 100 * perEfoldS * (Math.exp(t / perEfoldS) - 1));
  expect(audio.left[24_000 + 14_400]).toBeCloseTo(wanted, 5);
  expect(audio.right.every((value) => value === 0)).toBe(true);
});

describe('pink noise', () => {
  const band = { rateHz: 48_000, fromHz: 50, toHz: 10_000, crestLimitDb: 12 };
  const noise = pinkPeriod(11, 16_384, band);

  test('has rms 1 and a crest factor of 12 dB', () => {
    const power = noise.reduce((total, value) => total + value * value, 0) / noise.length;
    const peak = noise.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(Math.sqrt(power)).toBeCloseTo(1, 3);
    expect(20 * Math.log10(peak)).toBeLessThan(12.05);
  });

  test('has the power of one bin fall as one over frequency', () => {
    const bin = (k: number): number => {
      let re = 0;
      let im = 0;
      for (let n = 0; n < noise.length; n++) {
        re += noise[n] * Math.cos((2 * Math.PI * k * n) / noise.length);
        im += noise[n] * Math.sin((2 * Math.PI * k * n) / noise.length);
      }
      return re * re + im * im;
    };
    expect((bin(100) * 100) / (bin(3000) * 3000)).toBeCloseTo(1, 6);
    expect(bin(5000) / bin(3000)).toBeLessThan(1e-18);
  });

  test('refuses a length its transform does not have', () => {
    expect(() => pinkPeriod(1, 1000, band)).toThrow('power of two');
  });
});
