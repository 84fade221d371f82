import { describe, expect, it } from 'vitest';
import { gauss } from '../base/random.ts';
import { complexFft, inverseComplexFft, inverseRealFft, realFft } from './fft.ts';

/** The definition itself, term by term: slow and exact. */
function definition(signal: Float64Array): { re: number[]; im: number[] } {
  const size = signal.length;
  const re: number[] = [];
  const im: number[] = [];
  for (let k = 0; k <= size / 2; k++) {
    let r = 0;
    let i = 0;
    for (let n = 0; n < size; n++) {
      const angle = (2 * Math.PI * ((k * n) % size)) / size;
      r += signal[n] * Math.cos(angle);
      i -= signal[n] * Math.sin(angle);
    }
    re.push(r);
    im.push(i);
  }
  return { re, im };
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
        expect(Math.abs(re[k] - exact.re[k])).toBeLessThan(3e-14 * largest);
        expect(Math.abs(im[k] - exact.im[k])).toBeLessThan(3e-14 * largest);
      }
    });
    it(`comes back at ${size} samples`, () => {
      const signal = noise(size, size + 1000);
      const { re, im } = realFft(signal);
      const back = inverseRealFft(re, im, size);
      for (let n = 0; n < size; n++) expect(Math.abs(back[n] - signal[n])).toBeLessThan(1e-13);
    });
  }

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
