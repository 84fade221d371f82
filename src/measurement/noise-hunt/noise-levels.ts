// How loud a noise is, and whether a tone in it can be heard.
import { realFft } from '../../signals/fft.ts';
import type { Recording } from '../../signals/recording.ts';
import { weightingPower } from '../../signals/weighting.ts';
import type { FoundTone, NoiseSpectrum } from './tone-search.ts';

/** Longest piece, s. */
const PIECE_S = 8;
const LEAST_S = 1;

/** A-weighted mean square of a piece, taken as it is: the bins of its transform add up to its mean square. */
function pieceAWeighted(recording: Recording, channel: number, start: number, length: number): number {
  const block = new Float64Array(length);
  recording.readChannel(channel, start, length, block);
  const { re, im } = realFft(block, length);
  let sum = 0;
  for (let k = 1; k < re.length; k++) {
    sum += (re[k] ** 2 + im[k] ** 2) * weightingPower('A', (k * recording.rateHz) / length);
  }
  return (2 * sum) / length ** 2;
}

/**
 * A-weighted level of a recording, dB re a full-scale square; silence reads -300.
 *
 * @param channel  counted from 0
 * @returns null where the recording is shorter than a second
 * Accuracy: 0.1 dB (test/vectors/noise.json); a lone tone below 60 Hz reads up to 0.15 dB high, because the ends of the
 *   recording cut its wave
 * Source: IEC 61672-1:2013, annex E, applied to power in the frequency domain.
 */
export function aWeightedDbfs(recording: Recording, channel: number): number | null {
  const { frames, rateHz } = recording;
  if (frames < LEAST_S * rateHz) return null;
  const pieces = Math.ceil(frames / (PIECE_S * rateHz));
  const length = Math.floor(frames / pieces / 2) * 2;
  let sum = 0;
  for (let i = 0; i < pieces; i++) sum += pieceAWeighted(recording, channel, i * length, length) / pieces;
  return 10 * Math.log10(Math.max(sum, 1e-30));
}

export interface ToneAudibility {
  /** Mean square of the tone's third octave without the tone itself, dB re a full-scale square. */
  bandNoiseDbfs: number;
  /** Tone over that noise, dB. */
  overNoiseDb: number;
  audible: boolean;
}

/** A tone is heard from about this much over the noise of its third octave, dB. */
const AUDIBLE_DB = -4;
/** Bins to either side that belong to the tone. */
const TONE_BINS = 4;
/** Bins to either side that are looked at, at least. */
const LEAST_REACH_BINS = 10;

/**
 * A tone against the noise of the third octave around it.
 *
 * Source: E. Zwicker, H. Fastl, Psychoacoustics, 3rd ed. 2007, chapter 4 (tones masked by noise a few decibels under the
 *   critical band's level); third octaves stand for critical bands.
 */
export function toneAudibility(
  { power, binHz }: NoiseSpectrum,
  tone: Pick<FoundTone, 'fHz' | 'levelDbfs'>,
): ToneAudibility {
  const middle = tone.fHz / binHz;
  const [low, high] = [middle * 2 ** (-1 / 6), middle * 2 ** (1 / 6)];
  // Low down a third octave is narrower than the tone's own bins: the noise is taken from a little farther off.
  const reach = Math.max(high - middle, LEAST_REACH_BINS);
  const from = Math.max(1, Math.round(Math.min(low, middle - reach)));
  const to = Math.min(power.length - 1, Math.round(Math.max(high, middle + reach)));
  let sum = 0;
  let count = 0;
  for (let k = from; k <= to; k++) {
    if (Math.abs(k - middle) <= TONE_BINS) continue;
    sum += power[k];
    count++;
  }
  // What hides behind the tone is taken to be like what is beside it.
  const noise = count > 0 ? (sum / count) * (high - low) : 0;
  const bandNoiseDbfs = 10 * Math.log10(Math.max(noise, 1e-30));
  const overNoiseDb = tone.levelDbfs - bandNoiseDbfs;
  return { bandNoiseDbfs, overNoiseDb, audible: overNoiseDb > AUDIBLE_DB };
}

/** Where a hiss enters, from what it does when something before it is turned down. */
export type HissSource = 'before' | 'after' | 'cannot say';

/**
 * Whether hiss comes from before or after a control that was turned down by `turnedDb`: it falls as much, or stays.
 *
 * @param changeDb  level after less level before, dB
 * @param turnedDb  how far the control went down, 3 .. 60 dB
 */
export function hissSource(changeDb: number, turnedDb: number): HissSource {
  if (!(turnedDb >= 3 && turnedDb <= 60)) throw new RangeError(`turnedDb must be 3..60, got ${turnedDb}`);
  const share = -changeDb / turnedDb;
  if (share >= 0.7) return 'before';
  return share <= 0.3 ? 'after' : 'cannot say';
}
