// The noise of a track segment: one period for each side, at the level that is played.
import { amplitudeFromDb } from '../base/decibel.ts';
import { pinkNoise } from './pink-noise.ts';
import { fadeWeight, type Wave } from './segment-wave.ts';
import type { NoiseSegment } from './track.ts';

/** Whether a segment says all that is needed to make its noise; one from another program may not. */
export function isRenderableNoise(segment: NoiseSegment): boolean {
  const { spectrum, periodSamples, fromHz, toHz, relation, seedRight } = segment;
  const complete = periodSamples !== undefined && fromHz !== undefined && toHz !== undefined;
  const right = relation !== 'independent' || typeof seedRight === 'number';
  return spectrum === 'pink' && complete && periodSamples % 2 === 0 && right;
}

/**
 * One period of the noise on each side, full scale = 1: its highest peak is the segment's level, both sides have the
 * same rms. Sides that do not play are given too.
 *
 * @param segment  one that `isRenderableNoise`
 * @throws RangeError  a segment that is not
 */
export function noisePeriods(segment: NoiseSegment, rateHz: number): { left: Float64Array; right: Float64Array } {
  if (!isRenderableNoise(segment)) throw new RangeError('the noise segment must give its period, band and seeds');
  const period = (seed: number): Float64Array =>
    pinkNoise({
      seed,
      periodSamples: segment.periodSamples as number,
      rateHz,
      fromHz: segment.fromHz as number,
      toHz: segment.toHz as number,
      crestLimitDb: typeof segment.crestLimitDb === 'number' ? segment.crestLimitDb : undefined,
    });
  const left = period(segment.seed);
  const right = segment.relation === 'independent' ? period(segment.seedRight as number) : left;
  const scale = amplitudeFromDb(segment.levelDbfs) / Math.max(peakOf(left), peakOf(right));
  const mirror = segment.relation === 'opposite' ? -1 : 1;
  return { left: left.map((value) => value * scale), right: right.map((value) => value * scale * mirror) };
}

function peakOf(samples: Float64Array): number {
  return samples.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);
}

/** The period repeated over the segment's length, with its fades. */
export function noiseWave(segment: NoiseSegment, period: Float64Array, rateHz: number): Wave {
  const frames = Math.round(segment.durationS * rateHz);
  const fade = (seconds: unknown): number => (typeof seconds === 'number' ? Math.round(seconds * rateHz) : 0);
  const fadeIn = fade(segment.fadeInS);
  const fadeOut = fade(segment.fadeOutS);
  return {
    frames,
    fill(from, count) {
      const out = new Float64Array(count);
      for (let index = 0; index < count; index++) {
        const n = from + index;
        out[index] = period[n % period.length] * fadeWeight(n, frames, fadeIn, fadeOut);
      }
      return out;
    },
  };
}
