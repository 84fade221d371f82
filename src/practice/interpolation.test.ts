import { expect, test } from 'vitest';
import { whiteNoise } from './chance.ts';
import { addConvolved } from './convolution.ts';
import { addPulse, besselI0, doubledRate, halvedRate, rateChangeResponse, resampled } from './interpolation.ts';

const sine = (fHz: number, count: number, at: (n: number) => number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => Math.sin(2 * Math.PI * fHz * at(n) + 0.3));

test('the Bessel function has its tabulated values', () => {
  // Abramowitz & Stegun, table 9.8: I0(1) and I0(5).
  expect(besselI0(1)).toBeCloseTo(1.266065878, 9);
  expect(besselI0(5)).toBeCloseTo(27.239871824, 7);
});

test('a sine taken at fractional positions is that sine, up to 0.45 of the rate', () => {
  for (const perSample of [0.01, 0.2, 0.4, 0.45]) {
    const source = sine(perSample, 2000, (n) => n);
    const first = 200.37;
    const step = 1.00004;
    const taken = resampled(source, first, step, 1500);
    const wanted = sine(perSample, 1500, (n) => first + n * step);
    const worst = taken.reduce((most, value, n) => Math.max(most, Math.abs(value - wanted[n])), 0);
    expect(worst).toBeLessThan(1e-4);
  }
});

test('a slower rate keeps what it can carry and drops the rest', () => {
  const step = 48 / 44.1;
  const kept = resampled(
    sine(0.3, 3000, (n) => n),
    100,
    step,
    2000,
  );
  const wanted = sine(0.3, 2000, (n) => 100 + n * step);
  expect(kept.reduce((most, value, n) => Math.max(most, Math.abs(value - wanted[n])), 0)).toBeLessThan(1e-3);
  const dropped = resampled(
    sine(0.49, 3000, (n) => n),
    100,
    step,
    2000,
  );
  expect(dropped.reduce((most, value) => Math.max(most, Math.abs(value)), 0)).toBeLessThan(1e-3);
});

test('outside the signal there is nothing', () => {
  const taken = resampled(Float64Array.of(1, 1, 1), -500, 1, 100);
  expect(taken.every((value) => value === 0)).toBe(true);
});

test('doubling keeps the samples and halving gives a sine back as the formula says', () => {
  const source = sine(0.13, 1200, (n) => n);
  const doubled = doubledRate(source);
  expect(doubled[800]).toBe(source[400]);
  const back = halvedRate(doubled);
  const gain = rateChangeResponse(0.13 * 48_000, 48_000);
  expect(gain).toBeCloseTo(1, 4);
  for (let n = 300; n < 900; n += 37) expect(back[n]).toBeCloseTo(gain * source[n], 6);
});

test('a pulse at a fractional place has a flat response and the delay asked for', () => {
  const pulse = new Float64Array(256);
  addPulse(pulse, 128.3, 1);
  for (const perSample of [0.05, 0.2, 0.42]) {
    let re = 0;
    let im = 0;
    for (let n = 0; n < 256; n++) {
      re += pulse[n] * Math.cos(2 * Math.PI * perSample * (n - 128.3));
      im -= pulse[n] * Math.sin(2 * Math.PI * perSample * (n - 128.3));
    }
    expect(re).toBeCloseTo(1, 4);
    expect(im).toBeCloseTo(0, 4);
  }
});

test('convolution by blocks is the plain sum, over silent blocks too', () => {
  const signal = whiteNoise(1, 5000);
  signal.fill(0, 1500, 3900);
  const response = whiteNoise(2, 700);
  const target = new Float64Array(5200);
  addConvolved(target, signal, response, -20);
  for (const at of [0, 3, 1490, 1800, 2300, 4100, 5199]) {
    let wanted = 0;
    for (let k = 0; k < response.length; k++) wanted += (signal[at + 20 - k] ?? 0) * response[k];
    expect(target[at]).toBeCloseTo(wanted, 8);
  }
});
