// Power per bin of one stretch of signal, with everything it needs set up beforehand: the engine of live displays.
import { complexFft } from './fft.ts';

/** "hann" for anything; "none" only where the stretch is a whole number of periods. */
export type SpectrumWindow = 'hann' | 'none';

/** Analyses stretches of `size` samples; made once, used often. */
export interface PowerSpectrum {
  readonly size: number;
  /** Power per bin of the last stretch, bins 0 .. size / 2; overwritten by `analyse`. */
  readonly binPower: Float64Array;
  /** Analyses the `size` samples of `ring` that end before `end` (counted modulo its length). Allocates nothing. */
  analyse(ring: Float64Array, end: number): void;
}

/**
 * An analyser of `size` samples, one-sided, scaled so that the bins of a stationary signal add up to its mean square:
 * a sine of amplitude a gives a^2 / 2 over its bins, full-scale square waves 1.
 *
 * @param size    power of two, 16 .. 1 048 576
 * @param window  Hann (periodic form) or none
 * @throws RangeError  a size that is no such power of two, a window that does not exist
 * Source: P. D. Welch, The use of fast Fourier transform for the estimation of power spectra, IEEE Trans. Audio
 *   Electroacoust. 15(2), 1967, 70-73. The real signal goes through a complex transform of half its length.
 */
export function powerSpectrum(size: number, window: SpectrumWindow): PowerSpectrum {
  if (!(size >= 16 && size <= 1048576 && Number.isInteger(Math.log2(size)))) {
    throw new RangeError(`size must be a power of two 16..1048576, got ${size}`);
  }
  if (window !== 'hann' && window !== 'none') throw new RangeError(`window must be hann or none, got ${window}`);
  const half = size / 2;
  const weights = new Float64Array(size);
  let weightPower = 0;
  for (let n = 0; n < size; n++) {
    weights[n] = window === 'hann' ? Math.sin((Math.PI * n) / size) ** 2 : 1;
    weightPower += weights[n] * weights[n];
  }
  const cos = new Float64Array(half + 1);
  const sin = new Float64Array(half + 1);
  for (let k = 0; k <= half; k++) {
    cos[k] = Math.cos((2 * Math.PI * k) / size);
    sin[k] = Math.sin((2 * Math.PI * k) / size);
  }
  const re = new Float64Array(half);
  const im = new Float64Array(half);
  const binPower = new Float64Array(half + 1);
  const scale = 2 / (size * weightPower);

  // The transform keeps its tables after the first use; have that happen now, not in the first live block.
  complexFft(re, im);

  return {
    size,
    binPower,
    analyse(ring, end) {
      const length = ring.length;
      let at = (((end - size) % length) + length) % length;
      for (let n = 0; n < half; n++) {
        re[n] = ring[at] * weights[2 * n];
        at = at + 1 === length ? 0 : at + 1;
        im[n] = ring[at] * weights[2 * n + 1];
        at = at + 1 === length ? 0 : at + 1;
      }
      complexFft(re, im);
      for (let k = 0; k <= half; k++) {
        const a = k === half ? 0 : k;
        const b = k === 0 ? 0 : half - k;
        const evenRe = 0.5 * (re[a] + re[b]);
        const evenIm = 0.5 * (im[a] - im[b]);
        const oddRe = 0.5 * (im[a] + im[b]);
        const oddIm = 0.5 * (re[b] - re[a]);
        const xr = evenRe + oddRe * cos[k] + oddIm * sin[k];
        const xi = evenIm + oddIm * cos[k] - oddRe * sin[k];
        // 0 Hz and half the rate have no mirror image to add.
        binPower[k] = (k === 0 || k === half ? 0.5 : 1) * scale * (xr * xr + xi * xi);
      }
    },
  };
}

/**
 * Mean power per bin over a whole signal: windows of `size` samples, half overlapped, averaged.
 *
 * @param signal  at least `size` samples; not changed
 * @param size    power of two, 16 .. 1 048 576
 * @param window  "hann", or "none" (then without overlap) for a signal of period `size`
 * @returns power per bin, one-sided, the sum being the mean square; and how many windows went into it
 * @throws RangeError  a signal shorter than one window or not finite, a size or window that does not exist
 * Accuracy: random error of a band of B Hz over T seconds 4.34 / sqrt(B T) dB (standard deviation, Gaussian noise)
 */
export function meanPowerSpectrum(
  signal: ArrayLike<number>,
  size: number,
  window: SpectrumWindow,
): { binPower: Float64Array; windows: number } {
  const spectrum = powerSpectrum(size, window);
  if (signal.length < size) throw new RangeError(`signal must hold ${size} samples or more, got ${signal.length}`);
  const samples = Float64Array.from(signal);
  const hop = window === 'none' ? size : size / 2;
  const binPower = new Float64Array(size / 2 + 1);
  let windows = 0;
  for (let end = size; end <= samples.length; end += hop) {
    spectrum.analyse(samples, end);
    for (let k = 0; k < binPower.length; k++) binPower[k] += spectrum.binPower[k];
    windows++;
  }
  for (let k = 0; k < binPower.length; k++) {
    binPower[k] /= windows;
    if (!Number.isFinite(binPower[k])) throw new RangeError('signal must be finite');
  }
  return { binPower, windows };
}
