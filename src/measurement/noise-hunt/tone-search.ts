// Tones that stand out of a noise recording: whine, hum and whistles.
import { assertRange } from '../../base/assert.ts';
import { powerOfTwoFrom, realFft, type Spectrum } from '../../signals/fft.ts';
import type { Recording } from '../../signals/recording.ts';

/** A steady tone. */
export interface FoundTone {
  fHz: number;
  /** Root mean square of the tone re a full-scale square, dB. */
  levelDbfs: number;
  /** Over the middle of what surrounds it, dB. */
  overSurroundingsDb: number;
}

/** Power per bin of a recording. */
export interface NoiseSpectrum {
  /** Mean square per bin; the bins of stationary sound add up to its mean square. */
  power: Float64Array;
  binHz: number;
  /** Bins that a steady tone spreads its power over, as a factor. */
  toneWidthBins: number;
}

/** Four-term window whose side lobes lie 92 dB down. */
const WINDOW = [0.35875, -0.48829, 0.14128, -0.01168];
/** Length of one spectrum, s: bins of 2 Hz. */
const BLOCK_S = 0.45;
const LEAST_S = 1;

/**
 * Averaged spectrum of a stretch of a recording, half overlapping.
 *
 * @param channel  counted from 0
 * @param options.blockS  length of one spectrum, s, rounded up to a power of two of samples; default 0.45
 * @returns null where the recording is shorter than a second
 * Source: P. D. Welch, IEEE Trans. Audio Electroacoust. 15(2), 1967; F. J. Harris, Proc. IEEE 66(1), 1978 (window).
 */
export function noiseSpectrum(
  recording: Recording,
  channel: number,
  options: { blockS?: number } = {},
): NoiseSpectrum | null {
  assertRange('channel', channel, 0, recording.channels - 1);
  const { rateHz, frames } = recording;
  if (frames < LEAST_S * rateHz) return null;
  const size = Math.min(powerOfTwoFrom((options.blockS ?? BLOCK_S) * rateHz), powerOfTwoFrom(frames + 1) / 2);
  const weights = new Float64Array(size);
  let square = 0;
  let sum = 0;
  for (let n = 0; n < size; n++) {
    weights[n] = WINDOW.reduce((all, a, order) => all + a * Math.cos((2 * Math.PI * order * n) / size), 0);
    square += weights[n] ** 2;
    sum += weights[n];
  }
  const power = new Float64Array(size / 2 + 1);
  const block = new Float64Array(size);
  const into: Spectrum = { re: new Float64Array(power.length), im: new Float64Array(power.length) };
  const count = Math.floor((frames - size) / (size / 2)) + 1;
  for (let i = 0; i < count; i++) {
    recording.readChannel(channel, (i * size) / 2, size, block);
    for (let n = 0; n < size; n++) block[n] *= weights[n];
    const { re, im } = realFft(block, size, into);
    for (let k = 0; k < power.length; k++) power[k] += (2 * (re[k] ** 2 + im[k] ** 2)) / (size * square * count);
  }
  return { power, binHz: rateHz / size, toneWidthBins: (size * square) / sum ** 2 };
}

const REACH_BINS = 6;
const SURROUNDINGS_SHARE = 0.12;
const SURROUNDINGS_BINS = 12;
const LEAST_OVER_DB = 12;
const FAINTEST_DBFS = -110;

const db = (power: number): number => 10 * Math.log10(Math.max(power, 1e-30));

/** Sorts `values` on the way. */
function middleOf(values: Float64Array): number {
  return values.sort()[values.length >> 1];
}

/**
 * Tones of a spectrum, rising.
 *
 * A tone is the largest of six bins to either side, 12 dB over the middle of the surrounding 12 % (12 bins at least) and
 * louder than -110 dBFS. Tones nearer than 8 bins to each other merge.
 *
 * Accuracy: frequency within a tenth of a bin, by a parabola on decibels
 * Source: own method; parabola on a logarithmic spectrum, J. O. Smith, X. Serra, Proc. ICMC 1987.
 */
export function foundTones({ power, binHz, toneWidthBins }: NoiseSpectrum): FoundTone[] {
  const tones: FoundTone[] = [];
  for (let k = REACH_BINS; k < power.length - REACH_BINS; k++) {
    let largest = true;
    for (let i = k - REACH_BINS; largest && i <= k + REACH_BINS; i++) largest = power[i] <= power[k];
    const levelDbfs = db(power[k] * toneWidthBins);
    if (!largest || levelDbfs <= FAINTEST_DBFS) continue;
    const reach = Math.max(SURROUNDINGS_BINS, Math.round(SURROUNDINGS_SHARE * k));
    const around = power.slice(Math.max(1, k - reach), k + reach + 1);
    const overSurroundingsDb = db(power[k]) - db(middleOf(around));
    if (overSurroundingsDb < LEAST_OVER_DB) continue;
    const [left, top, right] = [db(power[k - 1]), db(power[k]), db(power[k + 1])];
    const bend = left - 2 * top + right;
    const shift = bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (left - right)) / bend)) : 0;
    tones.push({
      fHz: (k + shift) * binHz,
      levelDbfs: levelDbfs - 0.25 * (left - right) * shift,
      overSurroundingsDb,
    });
  }
  return tones;
}
