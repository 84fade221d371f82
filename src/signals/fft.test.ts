import { describe, expect, it } from 'vitest';
import { gauss } from '../base/random.ts';
import { complexFft, fftOfPairs, inverseComplexFft, inverseRealFft, realFft } from './fft.ts';

/** Sum that loses nothing to rounding until the end (A. Neumaier, Z. angew. Math. Mech. 54, 1974). */
function exactSum(count: number, term: (n: number) => number): number {
  let sum = 0;
  let lost = 0;
  for (let n = 0; n < count; n++) {
    const value = term(n);
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}

/** One bin by the definition itself, term by term: slow and exact. */
function bin(signal: Float64Array, k: number): { re: number; im: number } {
  const size = signal.length;
  const angle = (n: number): number => (2 * Math.PI * ((k * n) % size)) / size;
  return {
    re: exactSum(size, (n) => signal[n] * Math.cos(angle(n))),
    im: -exactSum(size, (n) => signal[n] * Math.sin(angle(n))),
  };
}

function definition(signal: Float64Array): { re: number[]; im: number[] } {
  const bins = Array.from({ length: Math.floor(signal.length / 2) + 1 }, (_, k) => bin(signal, k));
  return { re: bins.map(({ re }) => re), im: bins.map(({ im }) => im) };
}

const noise = (size: number, seed = 1): Float64Array => Float64Array.from({ length: size }, (_, n) => gauss(seed, n));

describe('realFft', () => {
  for (const size of [1, 2, 3, 4, 5, 6, 8, 12, 16, 32, 60, 64, 97, 128, 250, 256, 1024, 2048]) {
    it(`equals the definition at ${size} samples`, () => {
      const signal = noise(size, size);
      const { re, im } = realFft(signal);
      const exact = definition(signal);
      const largest = Math.max(...exact.re.map((r, k) => Math.hypot(r, exact.im[k])));
      for (let k = 0; k < exact.re.length; k++) {
        expect(Math.abs(re[k] - exact.re[k])).toBeLessThan(2e-15 * largest);
        expect(Math.abs(im[k] - exact.im[k])).toBeLessThan(2e-15 * largest);
      }
    });
    it(`comes back at ${size} samples`, () => {
      const signal = noise(size, size + 1000);
      const { re, im } = realFft(signal);
      const back = inverseRealFft(re, im, size);
      for (let n = 0; n < size; n++) expect(Math.abs(back[n] - signal[n])).toBeLessThan(1e-13);
    });
  }

  for (const size of [4096, 8192, 16_384, 32_768, 5000, 9973]) {
    it(`equals the definition in single bins at ${size} samples, within 1e-15 of the largest`, () => {
      const signal = noise(size, size);
      const { re, im } = realFft(signal);
      const largest = re.reduce((most, r, k) => Math.max(most, Math.hypot(r, im[k])), 0);
      for (const k of [0, 1, 2, 777, size >> 3, (size >> 2) - 1, size >> 2, Math.floor(size / 2)]) {
        const exact = bin(signal, k);
        expect(Math.hypot(re[k] - exact.re, im[k] - exact.im)).toBeLessThan(1e-15 * largest);
      }
    });
  }

  it('leaves its input alone and keeps its answers when others follow', () => {
    const signal = noise(256);
    const before = signal.slice();
    const first = realFft(signal);
    const kept = { re: first.re.slice(), im: first.im.slice() };
    const back = inverseRealFft(first.re, first.im, 256);
    const backKept = back.slice();
    realFft(noise(4096, 9));
    realFft(noise(256, 8));
    expect(signal).toEqual(before);
    expect(first).toEqual(kept);
    expect(back).toEqual(backKept);
  });

  it('takes numbers in any kind of list', () => {
    const signal = [3, 1, -4, 1, -5, 9, 2, -6];
    expect(realFft(signal)).toEqual(realFft(Float64Array.from(signal)));
    expect(realFft(Float32Array.from(signal), 16)).toEqual(realFft(Float64Array.from(signal), 16));
  });

  it('pads with zeros and cuts', () => {
    const signal = noise(10);
    const padded = new Float64Array(16);
    padded.set(signal);
    expect(realFft(signal, 16)).toEqual(realFft(padded));
    expect(realFft(signal, 4)).toEqual(realFft(signal.slice(0, 4)));
  });

  it('keeps a large power of two at rounding error', () => {
    const size = 1 << 19;
    const signal = noise(size);
    const { re, im } = realFft(signal);
    const back = inverseRealFft(re, im, size);
    let worst = 0;
    for (let n = 0; n < size; n++) worst = Math.max(worst, Math.abs(back[n] - signal[n]));
    expect(worst).toBeLessThan(1e-14 * 20);
  });

  it('refuses a size that is no whole number', () => {
    expect(() => realFft([1, 2], 2.5)).toThrow(RangeError);
  });
});

describe('fftOfPairs', () => {
  it('is complexFft on numbers stored as pairs', () => {
    for (const size of [1, 2, 4, 8, 16, 60, 512]) {
      const [re, im] = [noise(size, 5), noise(size, 6)];
      const pairs = Float64Array.from({ length: 2 * size }, (_, n) => (n % 2 === 0 ? re : im)[n >> 1]);
      const answer = fftOfPairs(pairs).slice(0, 2 * size);
      complexFft(re, im);
      for (let k = 0; k < size; k++) {
        expect(answer[2 * k]).toBeCloseTo(re[k], 12);
        expect(answer[2 * k + 1]).toBeCloseTo(im[k], 12);
      }
    }
  });
});

describe('complexFft', () => {
  for (const size of [1, 2, 7, 8, 100, 512]) {
    it(`and its inverse give the signal back at ${size}`, () => {
      const re = noise(size, 3);
      const im = noise(size, 4);
      const r = re.slice();
      const i = im.slice();
      complexFft(r, i);
      inverseComplexFft(r, i);
      for (let n = 0; n < size; n++) {
        expect(Math.abs(r[n] - re[n])).toBeLessThan(1e-13);
        expect(Math.abs(i[n] - im[n])).toBeLessThan(1e-13);
      }
    });
  }
});
