import { expect, test } from 'vitest';
import { gauss, hash32, uniform } from '../../src/base/random.ts';
import { bandPowers, octaveBands } from '../../src/signals/bands.ts';
import { linearChirp } from '../../src/signals/chirp.ts';
import { realFft } from '../../src/signals/fft.ts';
import { pinkNoise } from '../../src/signals/pink-noise.ts';
import {
  exponentialSweep,
  harmonicLeadS,
  sweepConstantS,
  sweepFrames,
  sweepTimeS,
  synchronisedDurationS,
} from '../../src/signals/sweep.ts';
import vectors from './signals.json' with { type: 'json' };

test.each(vectors.sweeps)('sweep $f1..$f2 Hz in about $T_asked s', (vector) => {
  const durationS = synchronisedDurationS(vector.f1, vector.f2, vector.T_asked);
  expect(Math.abs(durationS - vector.T)).toBeLessThan(1e-9);
  const timing = { durationS, fromHz: vector.f1, toHz: vector.f2 };
  const constantS = sweepConstantS(timing);
  expect(Math.abs(constantS - vector.L)).toBeLessThan(1e-9);
  expect(constantS * vector.f1).toBeCloseTo(vector.cycles, 9);
  expect(sweepFrames(durationS, vector.fs)).toBe(vector.N);
  for (const [order, lead] of Object.entries(vector.harmonic_lead_s)) {
    expect(Math.abs(harmonicLeadS(timing, Number(order)) - lead)).toBeLessThan(1e-6);
  }
  for (const { f, t } of vector.time_at_hz) expect(Math.abs(sweepTimeS(timing, f) - t)).toBeLessThan(1e-6);
  const fadeInS = constantS * Math.LN2 * vector.fade_in_oct;
  const fadeOutS = constantS * Math.LN2 * vector.fade_out_oct;
  const sweep = exponentialSweep({ ...timing, levelDbfs: 0, fadeInS, fadeOutS }, vector.fs);
  expect(sweep.length).toBe(vector.N);
  vector.index.forEach((n, i) => {
    expect(Math.abs(sweep[n] - vector.sample[i])).toBeLessThan(1e-6);
  });
});

test.each(vectors.chirps)('chirp $fa..$fb Hz in $dur s', (vector) => {
  const chirp = linearChirp({ durationS: vector.dur, fromHz: vector.fa, toHz: vector.fb, levelDbfs: 0 }, vector.fs);
  expect(chirp.length).toBe(vector.N);
  vector.index.forEach((n, i) => {
    expect(Math.abs(chirp[n] - vector.sample[i])).toBeLessThan(1e-7);
  });
});

test.each(vectors.prng)('random numbers of seed $seed', (vector) => {
  expect(vector.at.map((n) => hash32(vector.seed, n))).toEqual(vector.hash32);
  vector.uniform_first.forEach((want, n) => {
    expect(Math.abs(uniform(vector.seed, n) - want)).toBeLessThan(1e-6);
  });
  vector.gauss_first.forEach((want, n) => {
    expect(Math.abs(gauss(vector.seed, n) - want)).toBeLessThan(1e-6);
  });
});

interface PinkVector {
  N: number;
  fs: number;
  third_octave: { x: number }[];
}

/** Third-octave levels of one whole period, dB, for the bands the vector names. */
function thirdOctavesDb(samples: Float64Array, vector: PinkVector): Float64Array {
  const { re, im } = realFft(samples);
  const binPower = re.map((r, k) => (2 * (r * r + im[k] * im[k])) / samples.length ** 2);
  const named = new Set(vector.third_octave.map(({ x }) => x));
  const bands = octaveBands(3, 10, 20000).filter((band) => named.has(band.index));
  return bandPowers(binPower, vector.fs / vector.N, bands).map((power) => 10 * Math.log10(power));
}

function crestDb(samples: Float64Array): number {
  let power = 0;
  let peak = 0;
  for (const value of samples) {
    power += value * value;
    peak = Math.max(peak, Math.abs(value));
  }
  return 20 * Math.log10(peak / Math.sqrt(power / samples.length));
}

test.each(vectors.pink)('pink noise of $N samples, $flo..$fhi Hz, before its crest is limited', (vector) => {
  const { N: periodSamples, fs: rateHz, flo: fromHz, fhi: toHz, seed } = vector;
  const noise = pinkNoise({ periodSamples, rateHz, fromHz, toHz, seed });
  vector.first_samples.forEach((want, n) => {
    expect(Math.abs(noise[n] - want)).toBeLessThan(1e-6);
  });
  expect(crestDb(noise)).toBeCloseTo(vector.crest_db, 4);
  const levels = thirdOctavesDb(noise, vector);
  vector.third_octave.forEach(({ db }, i) => {
    expect(Math.abs(levels[i] - db)).toBeLessThan(1e-3);
  });
});

test.each(vectors.pink)('pink noise of $N samples, $flo..$fhi Hz, with its crest limited to 12 dB', (vector) => {
  const { N: periodSamples, fs: rateHz, flo: fromHz, fhi: toHz, seed } = vector;
  const wanted = vector.requirement_after_crest_limit;
  const noise = pinkNoise({ periodSamples, rateHz, fromHz, toHz, seed, crestLimitDb: 12 });
  expect(crestDb(noise)).toBeLessThan(wanted.crest_db_max);
  expect(crestDb(noise)).toBeGreaterThan(wanted.crest_db_min);
  const inner = thirdOctavesDb(noise, vector).slice(1, -1);
  const mean = inner.reduce((sum, db) => sum + db, 0) / inner.length;
  for (const db of inner) expect(Math.abs(db - mean)).toBeLessThan(wanted.third_octave_max_dev_from_flat_db);
});
