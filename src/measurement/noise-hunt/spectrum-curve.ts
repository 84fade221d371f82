// A spectrum as a curve that a person can look at: few points, and no tone lost between them.
import type { NoiseSpectrum } from './tone-search.ts';

const PER_OCTAVE = 48;

/**
 * The loudest bin of each forty-eighth of an octave, as the level that a steady tone there would have.
 *
 * @param fromHz  the first, above 0
 * @returns levels in dB re a full-scale square, up to `toHz` or half the sample rate
 */
export function spectrumCurve(
  { power, binHz, toneWidthBins }: NoiseSpectrum,
  fromHz: number,
  toHz: number,
): { fHz: number[]; levelDbfs: number[] } {
  const fHz: number[] = [];
  const levelDbfs: number[] = [];
  const half = 2 ** (0.5 / PER_OCTAVE);
  const end = Math.min(toHz, (power.length - 1) * binHz);
  for (let n = 0; fromHz * 2 ** (n / PER_OCTAVE) <= end; n++) {
    const middle = fromHz * 2 ** (n / PER_OCTAVE);
    const from = Math.max(1, Math.round(middle / half / binHz));
    const to = Math.min(power.length - 1, Math.max(from, Math.round((middle * half) / binHz)));
    let most = 0;
    for (let k = from; k <= to; k++) most = Math.max(most, power[k]);
    fHz.push(middle);
    levelDbfs.push(10 * Math.log10(Math.max(most * toneWidthBins, 1e-30)));
  }
  return { fHz, levelDbfs };
}
