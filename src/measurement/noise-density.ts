// The background's power density, from the stretches of a recording in which the track is silent.
import { powerOfTwoFrom, realFft, type Spectrum } from '../signals/fft.ts';
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
  const window = hannWindow(size);
  const block = new Float64Array(size);
  const spectrum = { re: new Float64Array(size / 2 + 1), im: new Float64Array(size / 2 + 1) };
  let blocks = 0;
  let seconds = 0;
  for (const stretch of stretches) {
    if (stretch.length < size) continue;
    seconds += stretch.length / rateHz;
    const count = Math.max(1, Math.round((stretch.length - size) / (size / 2)) + 1);
    const step = count > 1 ? (stretch.length - size) / (count - 1) : 0;
    for (let i = 0; i < count; i++) {
      recording.readChannel(channel, stretch.start + Math.floor(i * step), size, block);
      windowAboutMean(block, window);
      addPower(realFft(block, size, spectrum), density);
      blocks++;
    }
  }
  if (blocks === 0) return null;
  const scale = 1 / (blocks * powerOf(window) * rateHz);
  for (let k = 0; k < density.length; k++) density[k] *= scale;
  return { rateHz, size, density, sum: runningSum(density), durationS: seconds };
}

/** Raised cosine without its zeros: sample n stands at n + 0.5. */
export function hannWindow(size: number): Float64Array {
  const window = new Float64Array(size);
  for (let n = 0; n < size; n++) window[n] = 0.5 - 0.5 * Math.cos((2 * Math.PI * (n + 0.5)) / size);
  return window;
}

function powerOf(samples: Float64Array): number {
  let power = 0;
  for (let n = 0; n < samples.length; n++) power += samples[n] * samples[n];
  return power;
}

/** Takes the mean out of `block` and multiplies it by `window`, in place. */
export function windowAboutMean(block: Float64Array, window: Float64Array): void {
  let mean = 0;
  for (let n = 0; n < block.length; n++) mean += block[n];
  mean /= block.length;
  for (let n = 0; n < block.length; n++) block[n] = (block[n] - mean) * window[n];
}

function addPower({ re, im }: Spectrum, sum: Float64Array): void {
  for (let k = 0; k < sum.length; k++) sum[k] += re[k] * re[k] + im[k] * im[k];
}

function runningSum(values: Float64Array): Float64Array {
  const sum = new Float64Array(values.length + 1);
  for (let k = 0; k < values.length; k++) sum[k + 1] = sum[k] + values[k];
  return sum;
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
