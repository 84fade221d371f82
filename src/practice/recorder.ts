// The recorder: its clock, its own faults, and the numbers it writes.
import { uniform } from '../base/random.ts';
import { type AmbientNoise, QUIET_CABIN } from './ambient-noise.ts';
import { seedFor } from './chance.ts';
import type { NoiseEvent } from './noise-events.ts';
import type { RecorderEffect } from './recorder-effects.ts';
import type { RecordingEdit } from './recording-edits.ts';

/** How the car is recorded. */
export interface RecorderSettings {
  /** True rate of the recorder, Hz (by its own clock). */
  rateHz: number;
  /** The recorder's clock against the player's, ppm; positive when the recording runs long. */
  driftPpm: number;
  /** Where the track's first sample falls in the recording, heard through the time reference, s. May be negative. */
  startS: number;
  /** Length of the recording, s; null: until half a second after the track. */
  durationS: number | null;
  bits: 16 | 24 | 32;
  /** Gain before the converter, dB; at 0 dB full scale is 40 Pa peak. */
  gainDb: number;
  /** -1: the recorder turns the wave over. */
  sign: 1 | -1;
  /** Noise in the recording at gain 0 dB. */
  noise: AmbientNoise;
  /**
   * Instead of the noise's own level: power of the clean first stimulus, while it sounds, over the noise's power, both
   * within the nominal band of the place on test, dB. Null: the noise's own level stands.
   */
  snrDb: number | null;
  /** Passing noises. */
  events: readonly NoiseEvent[];
  /** What happens in the recorder before its converter, in this order. */
  effects: readonly RecorderEffect[];
  /** What happens to the recording afterwards, in this order. */
  edits: readonly RecordingEdit[];
  /** 'twin': the same capsule twice; 'loop-back': second channel is the source, electrically. */
  channels: 'mono' | 'twin' | 'loop-back';
  /** What the file's header says instead of the true rate, Hz; null: the truth. */
  labelRateHz: number | null;
}

/** A plain recorder in a quiet parked car. */
export const PLAIN_RECORDER: RecorderSettings = {
  rateHz: 48_000,
  driftPpm: 20,
  startS: 0.8,
  durationS: null,
  bits: 24,
  gainDb: 0,
  sign: 1,
  noise: QUIET_CABIN,
  snrDb: null,
  events: [],
  effects: [],
  edits: [],
  channels: 'mono',
  labelRateHz: null,
};

/**
 * Numbers as a file of `bits` holds them: clipped at full scale, rounded.
 *
 * 16 bit gets triangular dither of one step to each side before rounding; 32 means floating point and passes as it is.
 *
 * Source: S. P. Lipshitz, R. A. Wannamaker, J. Vanderkooy, Quantization and dither, J. Audio Eng. Soc. 40(5), 1992.
 */
export function quantised(signal: Float64Array, bits: 16 | 24 | 32, seed: number): Float64Array {
  if (bits === 32) return Float64Array.from(signal, Math.fround);
  const steps = 2 ** (bits - 1);
  const ditherSeed = seedFor(seed, 'dither');
  const out = new Float64Array(signal.length);
  for (let n = 0; n < signal.length; n++) {
    const dither = bits === 16 ? uniform(ditherSeed, 2 * n) - uniform(ditherSeed, 2 * n + 1) : 0;
    out[n] = Math.max(-steps, Math.min(steps - 1, Math.round(signal[n] * steps + dither))) / steps;
  }
  return out;
}
