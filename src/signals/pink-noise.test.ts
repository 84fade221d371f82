import { expect, test } from 'vitest';
import { bandPowers, octaveBands } from './bands.ts';
import { realFft } from './fft.ts';
import { analogCrossoverResponse } from './filters/crossover.ts';
import { type PinkNoiseShape, pinkNoise, pinkNoisePair } from './pink-noise.ts';

const shape: PinkNoiseShape = {
  seed: 11,
  periodSamples: 65536,
  rateHz: 48000,
  fromHz: 40,
  toHz: 16000,
  crestLimitDb: 12,
};

function binPowers(samples: Float64Array): Float64Array {
  const { re, im } = realFft(samples);
  return re.map((r, k) => (2 * (r * r + im[k] * im[k])) / samples.length ** 2);
}
const rms = (samples: Float64Array) => Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length);
const peak = (samples: Float64Array) => samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
const correlation = (a: Float64Array, b: Float64Array) => a.reduce((sum, x, n) => sum + x * b[n], 0) / a.length;

test('rms is 1, the peak stays under 12 dB, there is no direct component', () => {
  const noise = pinkNoise(shape);
  expect(rms(noise)).toBeCloseTo(1, 12);
  expect(20 * Math.log10(peak(noise))).toBeLessThanOrEqual(12);
  expect(Math.abs(noise.reduce((sum, x) => sum + x, 0))).toBeLessThan(1e-8);
});

test('limiting the crest leaves every bin its exact magnitude: 1 / f in power, nothing outside the band', () => {
  const power = binPowers(pinkNoise(shape));
  const at = (fHz: number) => Math.round((fHz * shape.periodSamples) / shape.rateHz);
  const reference = power[at(1000)] * at(1000);
  for (const f of [41, 100, 333, 5000, 15990]) expect((power[at(f)] * at(f)) / reference).toBeCloseTo(1, 6);
  for (const f of [0, 10, 38, 16010, 23000]) expect(power[at(f)]).toBeLessThan(1e-20);
});

test('third octaves are flat within a hundredth of a decibel', () => {
  const bands = octaveBands(3, 150, 12000);
  const levels = bandPowers(binPowers(pinkNoise(shape)), shape.rateHz / shape.periodSamples, bands).map(
    (power) => 10 * Math.log10(power),
  );
  expect(Math.max(...levels) - Math.min(...levels)).toBeLessThan(0.01);
});

test('the same seed gives the same noise and another seed another', () => {
  expect(pinkNoise(shape)).toEqual(pinkNoise({ ...shape }));
  expect(Math.abs(correlation(pinkNoise(shape), pinkNoise({ ...shape, seed: 12 })))).toBeLessThan(0.1);
});

test('shaping filters multiply the magnitudes and nothing else', () => {
  const highPass = { family: 'butterworth', order: 4, fHz: 300 } as const;
  const lowPass = { family: 'butterworth', order: 4, fHz: 3000 } as const;
  const plain = binPowers(pinkNoise({ ...shape, crestLimitDb: undefined }));
  const shaped = binPowers(pinkNoise({ ...shape, highPass, lowPass }));
  const bins = [100, 410, 1000, 4096, 10000];
  const fHz = bins.map((k) => (k * shape.rateHz) / shape.periodSamples);
  const high = analogCrossoverResponse(highPass, 'high-pass', fHz);
  const low = analogCrossoverResponse(lowPass, 'low-pass', fHz);
  const gain = bins.map((_, i) => (high.re[i] ** 2 + high.im[i] ** 2) * (low.re[i] ** 2 + low.im[i] ** 2));
  const ratio = bins.map((k, i) => shaped[k] / plain[k] / gain[i]);
  for (const r of ratio) expect(r / ratio[0]).toBeCloseTo(1, 6);
});

test('the two sides go together as asked', () => {
  const same = pinkNoisePair(shape, 'same');
  expect(same.right).toEqual(same.left);
  expect(same.right).not.toBe(same.left);
  const opposite = pinkNoisePair(shape, 'opposite');
  expect(correlation(opposite.left, opposite.right)).toBeCloseTo(-1, 12);
  const independent = pinkNoisePair(shape, 'independent');
  expect(independent.left).toEqual(same.left);
  expect(Math.abs(correlation(independent.left, independent.right))).toBeLessThan(0.1);
  expect(rms(independent.right)).toBeCloseTo(1, 12);
});

test('independent sides are independent for seed 0 too, where a plain hash would map onto itself', () => {
  const { left, right } = pinkNoisePair({ ...shape, seed: 0, crestLimitDb: undefined }, 'independent');
  expect(Math.abs(correlation(left, right))).toBeLessThan(0.1);
});

test('a single bin is a sine of rms 1, whose crest of 3 dB needs no limiting', () => {
  const sine = pinkNoise({ seed: 1, periodSamples: 4096, rateHz: 4096, fromHz: 100, toHz: 100, crestLimitDb: 6 });
  expect(rms(sine)).toBeCloseTo(1, 12);
  expect(peak(sine)).toBeCloseTo(Math.SQRT2, 2);
});

test('what cannot be made is refused', () => {
  const make = (change: object) => () => pinkNoise({ ...shape, ...change });
  expect(make({ periodSamples: 1001 })).toThrow('periodSamples must be an even whole number, got 1001');
  expect(make({ periodSamples: 8 })).toThrow('periodSamples must be 16..4194304, got 8');
  expect(make({ seed: -1 })).toThrow('seed');
  expect(make({ seed: 1.5 })).toThrow('seed must be a whole number, got 1.5');
  expect(make({ fromHz: 500, toHz: 400 })).toThrow('fromHz must be 0.001..400, got 500');
  expect(make({ fromHz: 23999.9, toHz: 24000 })).toThrow(/the band must hold a bin/);
  expect(make({ crestLimitDb: 3 })).toThrow('crestLimitDb must be 6..20, got 3');
  expect(make({ rateHz: Number.NaN })).toThrow('rateHz');
  expect(() => pinkNoisePair(shape, 'mono' as 'same')).toThrow(
    'relation must be same, opposite or independent, got mono',
  );
});
