import { describe, expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { impulseBetween, transferFunction } from './deconvolution.ts';
import { realFft } from './fft.ts';

const RATE_HZ = 8000;
const band = { rateHz: RATE_HZ, fromHz: 1, toHz: RATE_HZ / 2 };
const noise = (length: number, seed: number): Float64Array => Float64Array.from({ length }, (_, n) => gauss(seed, n));

/** What comes out of a system with three echoes, added up one by one. */
function through(played: Float64Array, echoes: [delay: number, gain: number][], length: number): Float64Array {
  const out = new Float64Array(length);
  for (const [delay, gain] of echoes) for (let n = 0; n < played.length; n++) out[n + delay] += gain * played[n];
  return out;
}

describe('the impulse response between two signals', () => {
  test('shows each echo at its time and with its gain', () => {
    const played = noise(1024, 1);
    const echoes: [number, number][] = [
      [0, 1],
      [37, -0.5],
      [200, 0.25],
    ];
    const response = impulseBetween(through(played, echoes, 2048), played, 2048, band);
    const expected = through(Float64Array.of(1), echoes, 2048);
    response.forEach((value, n) => {
      expect(Math.abs(value - expected[n])).toBeLessThan(2e-3);
    });
  });

  test('stands at the end of the circle where it came before the signal', () => {
    const played = noise(512, 2);
    const early = new Float64Array(1024);
    early.set(played.subarray(5));
    const late = new Float64Array(1024);
    late.set(played.fill(0, 0, 5));
    const response = impulseBetween(early, late, 1024, band);
    expect(response[1024 - 5]).toBeCloseTo(1, 2);
    expect(Math.abs(response[0])).toBeLessThan(0.01);
  });

  test('leaves both signals as they were', () => {
    const played = noise(64, 3);
    const recorded = noise(64, 4);
    impulseBetween(recorded, played, 128, band);
    expect(played).toEqual(noise(64, 3));
    expect(recorded).toEqual(noise(64, 4));
  });
});

describe('the transfer function', () => {
  const size = 4096;
  const binHz = RATE_HZ / size;
  /** One unit impulse: the same power in every bin. */
  const flat = realFft(Float64Array.of(1), size);
  const narrow = { rateHz: RATE_HZ, fromHz: 500, toHz: 2000 };
  const gainAt = (fHz: number): number => {
    const { re, im } = transferFunction(flat, flat, size, narrow);
    const k = Math.round(fHz / binHz);
    return Math.hypot(re[k], im[k]);
  };

  test('is true within a thousandth of a decibel in the band, both ends included', () => {
    for (const fHz of [500, 1000, 2000]) expect(Math.abs(20 * Math.log10(gainAt(fHz)))).toBeLessThan(0.001);
  });

  test('is halved by a third of an octave outside it, where as much is added as there is', () => {
    expect(gainAt(500 / 2 ** (1 / 3))).toBeCloseTo(0.5, 2);
    expect(gainAt(2000 * 2 ** (1 / 3))).toBeCloseTo(0.5, 2);
    expect(gainAt(100)).toBeCloseTo(0.5, 6);
  });

  test('holds no mean: bin 0 is 0', () => {
    const { re, im } = transferFunction(flat, flat, size, band);
    expect([re[0], im[0]]).toEqual([0, 0]);
  });

  test('of silence played is 0 and no division by nothing', () => {
    const silence = realFft(new Float64Array(8), 16);
    const { re, im } = transferFunction(realFft(noise(8, 5), 16), silence, 16, band);
    expect([...re, ...im].every((value) => value === 0)).toBe(true);
  });

  test('does not blow up noise where nothing was played', () => {
    // A tone in one bin only: everywhere else the division would be by rounding errors.
    const tone = Float64Array.from({ length: size }, (_, n) => Math.sin((2 * Math.PI * 512 * n) / size));
    const { re, im } = transferFunction(realFft(noise(size, 6)), realFft(tone), size, narrow);
    const largest = re.reduce((most, r, k) => Math.max(most, Math.hypot(r, im[k])), 0);
    expect(largest).toBeLessThan(1);
  });
});
