import { describe, expect, it } from 'vitest';
import { gauss } from '../base/random.ts';
import { inverseComplexFft, realFft } from '../signals/fft.ts';
import { bandGrid, bandSignal, REACH_POINTS, runningEnergy, squaredEnvelopeAt } from './band-envelope.ts';

const size = 4096;
const noise = Float64Array.from({ length: size }, (_, n) => gauss(1, n));

/** The band's analytic signal at every sample, by the definition: negative frequencies and all other bins left out. */
function fullEnvelope(lowBin: number, highBin: number, template: Float64Array | null): Float64Array {
  const sound = realFft(noise);
  const other = template && realFft(template, size);
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  for (let k = lowBin; k <= highBin; k++) {
    const [tr, ti] = other ? [other.re[k], other.im[k]] : [1, 0];
    re[k] = 2 * (sound.re[k] * tr + sound.im[k] * ti);
    im[k] = 2 * (sound.im[k] * tr - sound.re[k] * ti);
  }
  inverseComplexFft(re, im);
  return re.map((r, n) => r * r + im[n] * im[n]);
}

describe('the envelope of a band', () => {
  it('stands on as coarse a grid as carries twice the band', () => {
    expect(bandGrid(4096, 300, 811)).toMatchObject({ points: 1024, step: 4 });
    expect(bandGrid(4096, 300, 812)).toMatchObject({ points: 2048, step: 2 });
    expect(bandGrid(4096, 1, 2047)).toMatchObject({ points: 4096, step: 1 });
  });

  for (const [lowBin, highBin] of [
    [300, 811],
    [301, 420],
    [1, 2047],
  ]) {
    it(`is the one at the samples themselves, on the grid and between, for bins ${lowBin} to ${highBin}`, () => {
      const chirp = Float64Array.from({ length: 512 }, (_, n) => Math.sin(0.4 * n + 0.0006 * n * n));
      for (const template of [null, chirp]) {
        const grid = bandGrid(size, lowBin, highBin);
        const spectrum = template && realFft(template, size);
        const pairs = bandSignal(grid, realFft(noise), spectrum, new Float64Array(2 * grid.points)).slice();
        const exact = fullEnvelope(lowBin, highBin, template);
        const largest = Math.max(...exact);
        const margin = REACH_POINTS * grid.step;
        for (let n = margin; n < size - margin; n++) {
          const off = Math.sqrt(squaredEnvelopeAt(pairs, grid.step, n)) - Math.sqrt(exact[n]);
          expect(Math.abs(off)).toBeLessThan(1e-5 * Math.sqrt(largest));
        }
      }
    });
  }

  it('holds the energy of the sound in the band', () => {
    const grid = bandGrid(size, 300, 811);
    const pairs = bandSignal(grid, realFft(noise), null, new Float64Array(2 * grid.points));
    const energy = new Float64Array(grid.points + 1);
    runningEnergy(pairs, grid.step, energy);
    const { re, im } = realFft(noise);
    let inBand = 0;
    for (let k = 300; k <= 811; k++) inBand += (2 * (re[k] ** 2 + im[k] ** 2)) / size;
    expect(energy[grid.points]).toBeCloseTo(inBand, 6);
    expect(energy[0]).toBe(0);
  });
});
