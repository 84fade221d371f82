import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { gauss } from '../../src/base/random.ts';
import { aWeightedDbfs } from '../../src/measurement/noise-hunt/noise-levels.ts';
import { alternatorHz, alternatorProduct, trackedTones } from '../../src/measurement/noise-hunt/order-tracking.ts';
import { foundTones, noiseSpectrum } from '../../src/measurement/noise-hunt/tone-search.ts';
import { type Recording, recordingFromArrays } from '../../src/signals/recording.ts';

interface Recipe {
  rpm: number;
  fs: number;
  duration_s: number;
  tones: { f: number; amp: number; phase: number }[];
  noise: { kind: 'white' | 'brownish'; seed: number; rms: number };
}

const vectors = JSON.parse(readFileSync(new URL('noise.json', import.meta.url), 'utf8')) as {
  tolerance: { fHz: number; aWeightedDb: number; orderShare: number };
  cases: {
    id: string;
    recordings: [Recipe, Recipe];
    expect: {
      tones: { f_first_hz: number; f_second_hz: number; class: string; order: number | null }[];
      classes: string[];
      a_weighted_dbfs_first: number;
      alternator_ratio_times_pole_pairs: number | null;
    };
  }[];
  alternator: { rpm: number; pulley_ratio: number; pole_pairs: number; phase_hz: number; ripple_hz: number }[];
};
const { tolerance } = vectors;

function recordingOf({ fs, duration_s, tones, noise }: Recipe) {
  const length = Math.round(fs * duration_s);
  const samples = new Float64Array(length);
  let last = 0;
  for (let n = 0; n < length; n++) {
    const g = gauss(noise.seed, n);
    last = noise.kind === 'white' ? g : 0.95 * last + 0.05 * g;
    samples[n] = last;
  }
  const rms = Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / length);
  for (let n = 0; n < length; n++) {
    samples[n] *= noise.rms / rms;
    for (const { f, amp, phase } of tones) samples[n] += amp * Math.sin((2 * Math.PI * f * n) / fs + phase);
  }
  return recordingFromArrays([samples], fs);
}

function tonesOf(recording: Recording) {
  const spectrum = noiseSpectrum(recording, 0);
  if (!spectrum) throw new Error('the recipe is too short');
  return foundTones(spectrum);
}

describe('noise at two engine speeds', () => {
  test.each(vectors.cases)('$id: every tone with its class, none invented', ({ recordings, expect: want }) => {
    const [first, second] = recordings.map(recordingOf);
    const tones = trackedTones(
      { rpm: recordings[0].rpm, tones: tonesOf(first) },
      { rpm: recordings[1].rpm, tones: tonesOf(second) },
    );
    const byFrequency = [...want.tones].sort((a, b) => a.f_first_hz - b.f_first_hz);
    expect(tones.map((tone) => tone.class)).toEqual(byFrequency.map((tone) => tone.class));
    byFrequency.forEach((tone, i) => {
      expect(Math.abs((tones[i].firstHz ?? 0) - tone.f_first_hz)).toBeLessThan(tolerance.fHz);
      expect(Math.abs((tones[i].secondHz ?? 0) - tone.f_second_hz)).toBeLessThan(tolerance.fHz);
      if (tone.order === null) expect(tones[i].order).toBeNull();
      else expect(Math.abs((tones[i].order ?? 0) / tone.order - 1)).toBeLessThan(tolerance.orderShare);
    });
    expect(Math.abs((aWeightedDbfs(first, 0) ?? 0) - want.a_weighted_dbfs_first)).toBeLessThan(tolerance.aWeightedDb);
    const product = want.alternator_ratio_times_pole_pairs;
    if (product === null) expect(alternatorProduct(tones)).toBeNull();
    else expect(Math.abs((alternatorProduct(tones) ?? 0) / product - 1)).toBeLessThan(tolerance.orderShare);
  });

  test.each(vectors.alternator)('$rpm rpm: an alternator’s frequencies', (want) => {
    const { phaseHz, rippleHz } = alternatorHz(want.rpm, want.pulley_ratio, want.pole_pairs);
    expect(phaseHz).toBeCloseTo(want.phase_hz, 9);
    expect(rippleHz).toBeCloseTo(want.ripple_hz, 9);
  });
});
