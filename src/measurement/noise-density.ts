// The background's power density, from the stretches of a recording in which the track is silent.
import { powerOfTwoFrom, realFft } from '../signals/fft.ts';
import type { Recording } from '../signals/recording.ts';

/** A stretch of the recording, in its own samples. */
export interface Stretch {
  start: number;
  length: number;
}

/** Two-sided power density over linear bins, (full scale)^2 per Hz. */
export interface NoiseDensity {
  rateHz: number;
  size: number;
  density: Float64Array;
  /** Running sum of `density`: entry k holds bins 0 .. k - 1. */
  sum: Float64Array;
  /** Time it was estimated from, s. */
  durationS: number;
}

const LONGEST_BLOCK_S = 0.7;

/**
 * Averaged periodograms with a Hann window and half overlap, over all the stretches given.
 *
 * @param rateHz  samples per second on the player's clock
 * @returns null when no stretch is long enough to say anything (50 ms)
 * Source: P. D. Welch, The use of fast Fourier transform for the estimation of power spectra, IEEE Trans. Audio
 *   Electroacoust. 15(2), 1967.
 */
export function noiseDensity(
  recording: Recording,
  channel: number,
  stretches: Stretch[],
  rateHz: number,
): NoiseDensity | null {
  const longest = stretches.reduce((most, stretch) => Math.max(most, stretch.length), 0);
  if (longest < 0.05 * rateHz) return null;
  let size = powerOfTwoFrom(LONGEST_BLOCK_S * rateHz);
  while (size > longest) size /= 2;
  const density = new Float64Array(size / 2 + 1);
  const window = new Float64Array(size);
  let power = 0;
  for (let n = 0; n < size; n++) {
    window[n] = 0.5 - 0.5 * Math.cos((2 * Math.PI * (n + 0.5)) / size);
    power += window[n] * window[n];
  }
  const block = new Float64Array(size);
  let blocks = 0;
  let seconds = 0;
  for (const stretch of stretches) {
    if (stretch.length < size) continue;
    seconds += stretch.length / rateHz;
    const count = Math.max(1, Math.round((stretch.length - size) / (size / 2)) + 1);
    const step = count > 1 ? (stretch.length - size) / (count - 1) : 0;
    for (let i = 0; i < count; i++) {
      recording.readChannel(channel, stretch.start + Math.floor(i * step), size, block);
      let mean = 0;
      for (let n = 0; n < size; n++) mean += block[n];
      mean /= size;
      for (let n = 0; n < size; n++) block[n] = (block[n] - mean) * window[n];
      const { re, im } = realFft(block);
      for (let k = 0; k < density.length; k++) density[k] += re[k] * re[k] + im[k] * im[k];
      blocks++;
    }
  }
  if (blocks === 0) return null;
  const sum = new Float64Array(density.length + 1);
  for (let k = 0; k < density.length; k++) {
    density[k] /= blocks * power * rateHz;
    sum[k + 1] = sum[k] + density[k];
  }
  return { rateHz, size, density, sum, durationS: seconds };
}

/** Mean density between two frequencies, (full scale)^2 per Hz; bins shared at the ends, one bin's width at least. */
export function densityBetween(noise: NoiseDensity, lowHz: number, highHz: number): number {
  const perBin = noise.rateHz / noise.size;
  const last = noise.density.length;
  // Bin k owns k - 0.5 .. k + 0.5; bin 0 (the mean) was taken out and does not count.
  const centre = (lowHz + highHz) / 2 / perBin + 0.5;
  const half = Math.max(0.5, (highHz - lowHz) / 2 / perBin);
  const from = Math.min(Math.max(1, centre - half), last - 1);
  const to = Math.min(Math.max(from + 0.5, centre + half), last);
  return (sumTo(noise, to) - sumTo(noise, from)) / (to - from);
}

function sumTo({ sum, density }: NoiseDensity, at: number): number {
  const whole = Math.min(Math.floor(at), density.length);
  return sum[whole] + (whole < density.length ? (at - whole) * density[whole] : 0);
}
