import { expect, test } from 'vitest';
import { bandPowers, bandShares, octaveBand, octaveBands } from './bands.ts';

test('third octaves carry the names everyone knows', () => {
  expect(octaveBands(3, 19, 20200).map((band) => band.nominalHz)).toEqual([
    20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150,
    4000, 5000, 6300, 8000, 10000, 12500, 16000, 20000,
  ]);
});

test('octaves carry theirs, down to below 1 Hz', () => {
  expect(octaveBands(1, 0.4, 20000).map((band) => band.nominalHz)).toEqual([
    0.5, 1, 2, 4, 8, 16, 31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000,
  ]);
});

test('other fractions are named by three digits from 1 to 4 and two from 5 to 9', () => {
  // Half-octave above 1 kHz is centred on 1000 * 10^0.075 = 1188.50, the next on 1000 * 10^0.225 = 1678.80.
  expect(octaveBand(2, 0).nominalHz).toBe(1190);
  expect(octaveBand(2, 1).nominalHz).toBe(1680);
  // Sixth octave, index 14: 1000 * 10^(0.3 * 29 / 12) = 5308.84.
  expect(octaveBand(6, 14).centreHz).toBeCloseTo(5308.844, 3);
  expect(octaveBand(6, 14).nominalHz).toBe(5300);
});

test('mathematics uses the exact centre, not the name: the 40 Hz band is centred on 39.81', () => {
  const band = octaveBand(3, -14);
  expect(band.nominalHz).toBe(40);
  expect(band.centreHz).toBeCloseTo(39.8107, 4);
});

test('bands join without gap, odd fractions around 1 kHz and even ones with an edge there', () => {
  for (const fraction of [1, 2, 3, 6, 12, 24]) {
    const bands = octaveBands(fraction, 50, 8000);
    for (let i = 1; i < bands.length; i++) expect(bands[i].lowHz / bands[i - 1].highHz).toBeCloseTo(1, 12);
    const at1k = fraction % 2 === 1 ? bands.map((b) => b.centreHz) : bands.map((b) => b.lowHz);
    expect(Math.min(...at1k.map((f) => Math.abs(f - 1000)))).toBeLessThan(1e-9);
  }
});

test('a limit that is an exact centre keeps its band, a hair inside loses it', () => {
  const { centreHz } = octaveBand(3, 7);
  expect(octaveBands(3, centreHz, centreHz)).toHaveLength(1);
  expect(octaveBands(3, centreHz * 1.0001, centreHz * 1.0002)).toHaveLength(0);
});

test('every bin is shared out once: bands lose and double nothing', () => {
  const power = Float64Array.from({ length: 4000 }, (_, k) => 1 + (k % 7));
  const bands = octaveBands(3, 20, 2000);
  const sum = bandPowers(power, 0.7, bands).reduce((a, b) => a + b, 0);
  // Slow twin: the whole span from the lowest to the highest edge, bin by bin.
  let want = 0;
  for (let k = 0; k < power.length; k++) {
    const low = Math.max(bands[0].lowHz, (k - 0.5) * 0.7);
    const high = Math.min(bands[bands.length - 1].highHz, (k + 0.5) * 0.7);
    want += (power[k] * Math.max(0, high - low)) / 0.7;
  }
  expect(sum).toBeCloseTo(want, 8);
});

test('a band narrower than a bin takes its part of that one bin', () => {
  expect(bandPowers([0, 8, 0], 100, [{ lowHz: 90, highHz: 115 }])[0]).toBeCloseTo(2, 12);
});

test('a band beyond the last bin has no power, one that reaches past it has what is there', () => {
  expect([
    ...bandPowers([1, 1, 1], 100, [
      { lowHz: 200, highHz: 400 },
      { lowHz: 250, highHz: 400 },
    ]),
  ]).toEqual([0.5, 0]);
  expect(bandShares([{ lowHz: 900, highHz: 1000 }], 100, 3)[0].lastBin).toBeLessThan(9);
});

test('what is no band is refused', () => {
  expect(() => octaveBand(0, 0)).toThrow('fraction must be a whole number 1..96, got 0');
  expect(() => octaveBand(3, 0.5)).toThrow('index must be a whole number, got 0.5');
  expect(() => octaveBand(3, 61)).toThrow('index must be -60..60, got 61');
  expect(() => octaveBands(3, 100, 50)).toThrow('fromHz must be 0.001..50, got 100');
  expect(() => octaveBands(2.5, 100, 500)).toThrow(RangeError);
  expect(() => bandPowers([1], 0, [])).toThrow('binHz');
  expect(() => bandPowers([], 1, [])).toThrow('binCount');
  expect(() => bandPowers([1], 1, [{ lowHz: 2, highHz: 1 }])).toThrow('a band needs 0 <= lowHz < highHz, got 2..1');
});
