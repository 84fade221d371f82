// The background that is there all the time, from the quieter moments of every band.
import type { NoiseDensity } from '../noise-density.ts';
import type { Band, FrameShape } from './band-frames.ts';

export const LEAST_FRAMES = 8;
/** Standard normal value of the lower quartile. */
const QUARTILE_Z = -0.6745;
/** Neighbouring bins of a Hann window share their noise: so many count as one. */
const BINS_PER_FREEDOM = 1.8;

/** Power of the lower quartile over the mean for noise in a band: Wilson and Hilferty's cube of a normal variable. */
function quartileShare({ bins }: Band): number {
  const ninth = BINS_PER_FREEDOM / (9 * bins);
  return (1 - ninth + QUARTILE_Z * Math.sqrt(ninth)) ** 3;
}

/**
 * Mean density of steady noise in every band, judged by the lower quartile of what was heard there while it was free:
 * what sounds for less than half of that time does not move it much.
 *
 * @param heard densities per band, while the band was free
 * @returns (full scale)^2 per Hz; null where fewer than 8 frames are known
 * Source: R. Martin, Noise power spectral density estimation based on optimal smoothing and minimum statistics, IEEE
 *   Trans. Speech Audio Process. 9(5), 2001; E. B. Wilson, M. M. Hilferty, Proc. Natl. Acad. Sci. 17(12), 1931.
 */
export function steadyBackground({ bands }: FrameShape, heard: readonly number[][]): (number | null)[] {
  return bands.map((band, b) => {
    if (heard[b].length < LEAST_FRAMES) return null;
    const sorted = [...heard[b]].sort((a, b) => a - b);
    return sorted[sorted.length >> 2] / quartileShare(band);
  });
}

/** The steady background on linear bins; bands that are not known take their nearest known neighbour's density. */
export function asNoiseDensity(
  { bands, size, rateHz }: FrameShape,
  background: readonly (number | null)[],
  durationS: number,
): NoiseDensity | null {
  const known = bands.flatMap(({ lowHz, highHz }, b) => {
    const value = background[b];
    return value === null ? [] : [{ lowHz, highHz, value }];
  });
  if (known.length === 0) return null;
  const density = new Float64Array(size / 2 + 1);
  let at = 0;
  for (let k = 0; k < density.length; k++) {
    const fHz = (k * rateHz) / size;
    while (at + 1 < known.length && fHz >= known[at + 1].lowHz) at++;
    density[k] = known[at].value;
  }
  return withSum({ rateHz, size, durationS, density });
}

/** Noise with more of it: `moreAt` gives the density to add at a frequency, (full scale)^2 per Hz. */
export function raised(noise: NoiseDensity, moreAt: (fHz: number) => number): NoiseDensity {
  const binHz = noise.rateHz / noise.size;
  const density = noise.density.map((value, k) => value + moreAt(k * binHz));
  return withSum({ ...noise, density });
}

function withSum(noise: Omit<NoiseDensity, 'sum'>): NoiseDensity {
  const sum = new Float64Array(noise.density.length + 1);
  for (let k = 0; k < noise.density.length; k++) sum[k + 1] = sum[k] + noise.density[k];
  return { ...noise, sum };
}
