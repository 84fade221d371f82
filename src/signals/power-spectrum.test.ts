import { expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { meanPowerSpectrum, powerSpectrum } from './power-spectrum.ts';

const RATE = 48000;
const sum = (values: Float64Array) => values.reduce((a, b) => a + b, 0);

test('a sine of amplitude a gives a^2 / 2 over its bins, wherever it lies between them', () => {
  for (const bin of [50, 50.3, 50.5]) {
    const sine = Float64Array.from({ length: 4096 }, (_, n) => 0.6 * Math.sin((2 * Math.PI * bin * n) / 4096 + 1));
    const { binPower } = meanPowerSpectrum(sine, 4096, 'hann');
    expect(sum(binPower)).toBeCloseTo(0.18, 3);
  }
});

test('bins agree with the slow transform written out', () => {
  const size = 64;
  const signal = Float64Array.from({ length: size }, (_, n) => gauss(5, n));
  for (const window of ['hann', 'none'] as const) {
    const { binPower } = meanPowerSpectrum(signal, size, window);
    let weightPower = 0;
    const weights = Array.from({ length: size }, (_, n) => {
      const w = window === 'hann' ? 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / size) : 1;
      weightPower += w * w;
      return w;
    });
    for (let k = 0; k <= size / 2; k++) {
      let re = 0;
      let im = 0;
      for (let n = 0; n < size; n++) {
        re += weights[n] * signal[n] * Math.cos((2 * Math.PI * k * n) / size);
        im -= weights[n] * signal[n] * Math.sin((2 * Math.PI * k * n) / size);
      }
      const want = ((k === 0 || k === size / 2 ? 1 : 2) * (re * re + im * im)) / (size * weightPower);
      expect(binPower[k]).toBeCloseTo(want, 12);
    }
  }
});

test('without window the bins of any stretch add up to its mean square exactly', () => {
  const signal = Float64Array.from({ length: 1024 }, (_, n) => gauss(9, n));
  const meanSquare = sum(signal.map((x) => x * x)) / signal.length;
  expect(sum(meanPowerSpectrum(signal, 1024, 'none').binPower)).toBeCloseTo(meanSquare, 12);
});

test('white noise of variance 1 spreads evenly and adds up to 1', () => {
  const noise = Float64Array.from({ length: RATE * 4 }, (_, n) => gauss(2, n));
  const { binPower, windows } = meanPowerSpectrum(noise, 1024, 'hann');
  expect(windows).toBe(Math.floor((noise.length - 1024) / 512) + 1);
  expect(sum(binPower)).toBeCloseTo(1, 1);
  const half = sum(binPower.slice(1, 257)) / sum(binPower.slice(257, 513));
  expect(half).toBeCloseTo(1, 1);
});

test('a ring is read across its seam', () => {
  const size = 64;
  const ring = Float64Array.from({ length: 100 }, (_, n) => gauss(4, n));
  const straight = Float64Array.from({ length: size }, (_, n) => ring[(70 + n) % 100]);
  const spectrum = powerSpectrum(size, 'hann');
  spectrum.analyse(ring, 134);
  expect(spectrum.binPower).toEqual(meanPowerSpectrum(straight, size, 'hann').binPower);
});

test('what cannot be analysed is refused', () => {
  expect(() => powerSpectrum(1000, 'hann')).toThrow('size must be a power of two 16..1048576, got 1000');
  expect(() => powerSpectrum(64, 'flat' as 'hann')).toThrow('window must be hann or none, got flat');
  expect(() => meanPowerSpectrum(new Float64Array(63), 64, 'hann')).toThrow(
    'signal must hold 64 samples or more, got 63',
  );
  expect(() => meanPowerSpectrum(new Float64Array(64).fill(Number.NaN), 64, 'hann')).toThrow('signal must be finite');
});
