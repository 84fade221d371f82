// The least delay that a magnitude allows.
import { inverseRealFft, realFft, type Spectrum } from './fft.ts';

/** Magnitudes are not taken below this share of the largest: a logarithm needs a floor. */
const FLOOR = 1e-12;

/**
 * Minimum-phase response with the given magnitude.
 *
 * @returns complex bins, as many as `magnitude` has
 * Everything else is as `minimumPhaseLog` says.
 */
export function minimumPhase(magnitude: Float64Array, size: number): Spectrum {
  const { re, im } = minimumPhaseLog(magnitude, size);
  for (let k = 0; k < re.length; k++) {
    const amplitude = Math.exp(re[k]);
    re[k] = amplitude * Math.cos(im[k]);
    im[k] = amplitude * Math.sin(im[k]);
  }
  return { re, im };
}

/**
 * Logarithm of the minimum-phase response with the given magnitude.
 *
 * The real cepstrum of the magnitude, folded onto positive time.
 *
 * @param magnitude  bins 0 .. size / 2 of an even transform length, >= 0; sample it finely (65536 points for audio rates),
 *   or the cepstrum folds over itself
 * @param size       that transform length, samples
 * @returns natural logarithm of the magnitude, and phase in radians, per bin
 * Source: A. V. Oppenheim, R. W. Schafer, Discrete-Time Signal Processing, 3rd ed., 2010, section 13.4 (homomorphic
 *   minimum-phase reconstruction).
 */
export function minimumPhaseLog(magnitude: Float64Array, size: number): Spectrum {
  const bins = size / 2 + 1;
  if (size % 2 !== 0 || magnitude.length !== bins) {
    throw new RangeError(`magnitude must have size / 2 + 1 bins of an even size, got ${magnitude.length} for ${size}`);
  }
  let largest = 0;
  for (let k = 0; k < bins; k++) largest = Math.max(largest, magnitude[k]);
  const floor = largest > 0 ? largest * FLOOR : 1;
  const log = new Float64Array(bins);
  for (let k = 0; k < bins; k++) log[k] = Math.log(Math.max(magnitude[k], floor));
  const cepstrum = inverseRealFft(log, new Float64Array(bins), size);
  for (let n = 1; n < size / 2; n++) {
    cepstrum[n] *= 2;
    cepstrum[size - n] = 0;
  }
  return realFft(cepstrum, size);
}
