// The background while the sweep sounds: what stands well below the frequency that is playing.

import type { Recording } from '../signals/recording.ts';
import { type SweepShape, sweepConstantS } from '../signals/sweep.ts';
import { densityBetween, type NoiseDensity, noiseDensity } from './noise-density.ts';
import type { TimedEvent } from './timeline.ts';

/** Distortion lies above what plays and the room has died away below it: a fifth of the frequency is background. */
const BELOW_SHARE = 5;
const LEAST_HZ = 50;
const MOST_HZ = 600;
const LEAST_SECONDS = 0.15;
/** Step of a file of floating numbers: no converter resolves more than 24 bits. */
const FLOAT_STEP = 2 ** -23;

/**
 * Background during a sweep over the background before the track, dB, in the band that the sweep leaves free.
 *
 * A file that is silent to the last bit before the track is taken to hold what its own steps hide (a step uniformly
 * rounded, step^2 / 12): against exact zeros, rounding alone would be a hundred decibels louder.
 *
 * @returns null where the sweep never leaves half an octave free for 150 ms
 */
export function noiseDuringDb(
  recording: Recording,
  channel: number,
  event: TimedEvent,
  before: NoiseDensity,
): { changeDb: number; densityDuring: number } | null {
  const shape = event.segment as unknown as SweepShape;
  const constantS = sweepConstantS(shape);
  // From here on the lowest free band is wide enough.
  const fromHz = Math.max(shape.fromHz * 1.2, LEAST_HZ * 1.5 * BELOW_SHARE);
  if (fromHz >= shape.toHz) return null;
  const startS = constantS * Math.log(fromHz / shape.fromHz) + 0.25;
  const start = Math.ceil(event.start + startS * before.rateHz);
  const end = Math.floor(Math.min(event.end, recording.frames));
  if (end - start < LEAST_SECONDS * before.rateHz) return null;
  // What sounded 0.25 s ago sets how high the free band reaches.
  const highHz = Math.min(MOST_HZ, fromHz / BELOW_SHARE);
  const lowHz = Math.max(LEAST_HZ, highHz / 3);
  const during = noiseDensity(recording, channel, [{ start, length: end - start }], before.rateHz);
  if (!during) return null;
  const densityDuring = densityBetween(during, lowHz, highHz);
  const densityBefore = densityBetween(before, lowHz, highHz);
  const hidden = (recording.stepSize || FLOAT_STEP) ** 2 / 12 / before.rateHz;
  return {
    changeDb: 10 * Math.log10(Math.max(densityDuring, hidden) / Math.max(densityBefore, hidden)),
    densityDuring,
  };
}
