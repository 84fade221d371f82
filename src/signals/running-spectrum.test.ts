import { expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { pinkNoise } from './pink-noise.ts';
import { type RunningSpectrumSetup, runningSpectrum } from './running-spectrum.ts';
import { weightingDb } from './weighting.ts';

const RATE = 48000;
const thirds: RunningSpectrumSetup = { rateHz: RATE, fraction: 3, fromHz: 25, toHz: 16000, average: 'linear' };
const sine = (fHz: number, seconds: number, amplitude = 1) =>
  Float32Array.from(
    { length: Math.round(seconds * RATE) },
    (_, n) => amplitude * Math.sin((2 * Math.PI * fHz * n) / RATE),
  );
function levels(spectrum: ReturnType<typeof runningSpectrum>): Float64Array {
  const out = new Float64Array(spectrum.bands.length);
  spectrum.levelsDbInto(out, -200);
  return out;
}

test('a full-scale sine reads -3.01 dB in its own band and far less in the next but one', () => {
  for (const [fHz, name] of [
    [50, 50],
    [1000, 1000],
    [10000, 10000],
  ]) {
    const spectrum = runningSpectrum(thirds);
    spectrum.feed(sine(fHz, 2));
    const at = spectrum.bands.findIndex((band) => band.nominalHz === name);
    const db = levels(spectrum);
    expect(db[at]).toBeCloseTo(-3.01, 1);
    expect(db[at - 2]).toBeLessThan(-35);
    expect(db[at + 2]).toBeLessThan(-35);
  }
});

test('blocks of any length give the same reading', () => {
  const noise = Float64Array.from({ length: 100000 }, (_, n) => gauss(1, n));
  const whole = runningSpectrum(thirds);
  whole.feed(noise);
  const pieces = runningSpectrum(thirds);
  for (let at = 0, length = 1; at < noise.length; at += length, length = (length * 31) % 4001) {
    pieces.feed(noise.subarray(at, at + length));
  }
  expect(pieces.bandPower).toEqual(whole.bandPower);
  expect(pieces.windows).toEqual(whole.windows);
});

test('pink noise of known period reads flat to a hundredth of a decibel after one period', () => {
  const periodSamples = 131072;
  const noise = pinkNoise({ seed: 1, periodSamples, rateHz: RATE, fromHz: 20, toHz: 20000, crestLimitDb: 12 });
  const spectrum = runningSpectrum({ ...thirds, periodSamples });
  // Begin in the middle: a whole period is a whole period wherever it starts.
  expect(spectrum.feed(noise.subarray(50000))).toBe(false);
  expect(spectrum.feed(noise.subarray(0, 50000))).toBe(true);
  const db = levels(spectrum);
  expect(Math.max(...db) - Math.min(...db)).toBeLessThan(0.01);
  expect(db[10]).toBeCloseTo(-10 * Math.log10(3 * Math.log2(1000) * (Math.log10(2) / 0.3)), 1);
});

test('the same noise read through running windows is flat within its random error', () => {
  const periodSamples = 131072;
  const noise = pinkNoise({ seed: 1, periodSamples, rateHz: RATE, fromHz: 15, toHz: 22000, crestLimitDb: 12 });
  const spectrum = runningSpectrum(thirds);
  for (let i = 0; i < 12; i++) spectrum.feed(noise);
  const db = levels(spectrum);
  const middle = db[17];
  db.forEach((level, b) => {
    const { lowHz, highHz } = spectrum.bands[b];
    // Four standard deviations over one period: repeating it adds nothing new.
    const sd = 4.34 / Math.sqrt(((highHz - lowHz) * periodSamples) / RATE);
    expect(Math.abs(level - middle)).toBeLessThan(0.1 + 4 * sd);
  });
});

test('the scatter of band levels of Gaussian noise is 4.34 / sqrt(B T) dB', () => {
  const spectrum = runningSpectrum({ ...thirds, fromHz: 300, toHz: 3000 });
  const seconds = 2;
  const runs = 60;
  const found = spectrum.bands.map(() => [] as number[]);
  for (let run = 0; run < runs; run++) {
    spectrum.reset();
    spectrum.feed(Float64Array.from({ length: seconds * RATE }, (_, n) => gauss(run, n)));
    levels(spectrum).forEach((db, b) => {
      found[b].push(db);
    });
  }
  let ratio = 0;
  found.forEach((values, b) => {
    const mean = values.reduce((a, x) => a + x, 0) / runs;
    const sd = Math.sqrt(values.reduce((a, x) => a + (x - mean) ** 2, 0) / (runs - 1));
    const { lowHz, highHz } = spectrum.bands[b];
    ratio += sd / (4.34 / Math.sqrt((highHz - lowHz) * seconds)) / spectrum.bands.length;
  });
  expect(ratio).toBeGreaterThan(0.9);
  expect(ratio).toBeLessThan(1.15);
});

test('the exponential average follows a step down with its time constant', () => {
  const spectrum = runningSpectrum({ ...thirds, average: 1 });
  const at = spectrum.bands.findIndex((band) => band.nominalHz === 4000);
  spectrum.feed(sine(4000, 10));
  const before = spectrum.bandPower[at];
  expect(10 * Math.log10(before)).toBeCloseTo(-3.01, 1);
  spectrum.feed(new Float32Array(2 * RATE));
  // Two time constants: e^-2, give or take the window that straddles the end.
  expect(spectrum.bandPower[at] / before).toBeGreaterThan(Math.exp(-2.0));
  expect(spectrum.bandPower[at] / before).toBeLessThan(Math.exp(-1.94));
});

test('the exponential average has no run-up from silence: the first window already reads right', () => {
  const spectrum = runningSpectrum({ ...thirds, average: 1 });
  const at = spectrum.bands.findIndex((band) => band.nominalHz === 4000);
  expect(spectrum.windows[at]).toBe(0);
  spectrum.feed(sine(4000, 0.1));
  expect(spectrum.windows[at]).toBeGreaterThan(0);
  expect(10 * Math.log10(spectrum.bandPower[at])).toBeCloseTo(-3.01, 1);
  expect(spectrum.windows[0]).toBe(0);
});

test('weighting is applied at the tone, not at the middle of the band', () => {
  const octaves = { ...thirds, fraction: 1 };
  const plain = runningSpectrum(octaves);
  const weighted = runningSpectrum({ ...octaves, weighting: 'A' });
  plain.feed(sine(400, 2));
  weighted.feed(sine(400, 2));
  const at = plain.bands.findIndex((band) => band.nominalHz === 500);
  expect(levels(weighted)[at] - levels(plain)[at]).toBeCloseTo(weightingDb('A', 400), 1);
  expect(weightingDb('A', plain.bands[at].centreHz) - weightingDb('A', 400)).toBeGreaterThan(1.5);
});

test('samples that are no numbers count as silence, are counted, and poison nothing', () => {
  const spectrum = runningSpectrum({ ...thirds, average: 0.125 });
  spectrum.feed([Number.NaN, Number.POSITIVE_INFINITY, 1e200, 0.5]);
  spectrum.feed(sine(1000, 1));
  expect(spectrum.unusableSamples).toBe(3);
  for (const power of spectrum.bandPower) expect(Number.isFinite(power)).toBe(true);
  spectrum.reset();
  expect(spectrum.unusableSamples).toBe(0);
  expect([...levels(spectrum)].every((db) => db === -200)).toBe(true);
});

test('after a reset it reads as if just made', () => {
  const spectrum = runningSpectrum(thirds);
  spectrum.feed(sine(100, 1.3));
  spectrum.reset();
  spectrum.feed(sine(5000, 1));
  const fresh = runningSpectrum(thirds);
  fresh.feed(sine(5000, 1));
  expect(spectrum.bandPower).toEqual(fresh.bandPower);
});

test('the arrays it gives out are the same ones for ever', () => {
  const spectrum = runningSpectrum(thirds);
  const { bandPower, windows, bands } = spectrum;
  spectrum.feed(sine(100, 2));
  expect(spectrum.bandPower).toBe(bandPower);
  expect(spectrum.windows).toBe(windows);
  expect(spectrum.bands).toBe(bands);
});

test('setups that cannot be are refused', () => {
  const make = (change: object) => () => runningSpectrum({ ...thirds, ...change });
  expect(make({ toHz: 23000 })).toThrow('toHz must be 1..21600, got 23000');
  expect(make({ fromHz: 1001, toHz: 1002 })).toThrow('no band of 1/3 octave is centred in 1001..1002 Hz');
  expect(make({ average: 0 })).toThrow('average must be 0.01..3600, got 0');
  expect(make({ periodSamples: 100000 })).toThrow('size must be a power of two');
  expect(make({ fraction: 25 })).toThrow('fraction must be');
  expect(make({ rateHz: 4000 })).toThrow('rateHz must be');
  expect(() => runningSpectrum(thirds).levelsDbInto(new Float64Array(3), -100)).toThrow(
    'out must hold 29 levels, got 3',
  );
});
