// Dividing what was recorded by what was played.
import { inverseRealFft, realFft, type Spectrum } from './fft.ts';

/** Where the played signal has energy, for the division to trust. */
export interface DeconvolutionBand {
  rateHz: number;
  fromHz: number;
  toHz: number;
}

/** In-band regularisation, power re the largest bin: biases the magnitude by less than 0.001 dB. */
const IN_BAND = 1e-6;

/**
 * Transfer function of whatever lies between `played` and `recorded`.
 *
 * Y conj(X) / (|X|^2 + eps): eps is 10^-6 of the largest |X|^2 inside the band and rises to all of it over a third of an
 * octave outside, so that nothing is divided by nothing.
 *
 * @param recorded,played  spectra of the same transform length
 * @param size             that length, samples
 * @param into             where the result goes; may be `recorded` itself, which a long sweep's memory asks for
 * @returns bins 0 .. size / 2, recorded unit per played unit; about 0 outside the band
 * Source: O. Kirkeby et al., Fast deconvolution of multichannel systems using regularization, IEEE Trans. Speech Audio
 *   Process. 6(2), 1998; A. Farina, 122nd AES Convention, paper 7121, 2007.
 */
export function transferFunction(
  recorded: Spectrum,
  played: Spectrum,
  size: number,
  band: DeconvolutionBand,
  into?: Spectrum,
): Spectrum {
  const bins = played.re.length;
  const { re, im } = into ?? { re: new Float64Array(bins), im: new Float64Array(bins) };
  let largest = 0;
  for (let k = 0; k < bins; k++) {
    largest = Math.max(largest, played.re[k] * played.re[k] + played.im[k] * played.im[k]);
  }
  re[0] = 0;
  im[0] = 0;
  for (let k = 1; k < bins; k++) {
    const xr = played.re[k];
    const xi = played.im[k];
    const yr = recorded.re[k];
    const yi = recorded.im[k];
    const divisor = xr * xr + xi * xi + largest * regularisation((k * band.rateHz) / size, band);
    re[k] = largest === 0 ? 0 : (yr * xr + yi * xi) / divisor;
    im[k] = largest === 0 ? 0 : (yi * xr - yr * xi) / divisor;
  }
  return { re, im };
}

/** Share of the largest power added at `fHz`: 10^-6 in band, 1 a third of an octave outside, raised cosine between. */
function regularisation(fHz: number, band: DeconvolutionBand): number {
  const octavesOut =
    fHz < band.fromHz ? Math.log2(band.fromHz / fHz) : fHz > band.toHz ? Math.log2(fHz / band.toHz) : 0;
  if (octavesOut === 0) return IN_BAND;
  const rise = octavesOut * 3;
  if (rise >= 1) return 1;
  return IN_BAND ** (0.5 + 0.5 * Math.cos(Math.PI * rise));
}

/**
 * Impulse response between two signals that start together.
 *
 * @param recorded,played  samples at `band.rateHz`; recorded no longer than `size`
 * @param size  transform length; at least recorded.length, so that the division is exact on a circle
 * @returns length `size`; negative times (harmonics of a sweep) stand at its end
 */
export function impulseBetween(
  recorded: Float64Array,
  played: Float64Array,
  size: number,
  band: DeconvolutionBand,
): Float64Array {
  const spectrum = realFft(recorded, size);
  const { re, im } = transferFunction(spectrum, realFft(played, size), size, band, spectrum);
  return inverseRealFft(re, im, size);
}
