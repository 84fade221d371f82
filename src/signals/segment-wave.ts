// The wave of one segment of a track, any stretch of it at a time, so that a long track needs no long memory.
import { amplitudeFromDb } from '../base/decibel.ts';
import { linearChirp } from './chirp.ts';
import { type SweepShape, sweepConstantS, sweepFrames } from './sweep.ts';
import type { MarkerSegment, PulsesSegment, SweepSegment, ToneSegment } from './track.ts';

/** One channel's wave: `fill` gives samples `from` .. `from + count - 1`, all inside `frames`. */
export interface Wave {
  frames: number;
  fill: (from: number, count: number) => Float64Array;
}

/** Raised-cosine weight of sample `n` of `frames`: rises from 0, falls so that the last sample is 0. */
export function fadeWeight(n: number, frames: number, fadeIn: number, fadeOut: number): number {
  let weight = 1;
  if (n < fadeIn) weight *= 0.5 - 0.5 * Math.cos((Math.PI * n) / fadeIn);
  const late = n - (frames - fadeOut) + 1;
  if (late > 0) weight *= 0.5 + 0.5 * Math.cos((Math.PI * late) / fadeOut);
  return weight;
}

function filled(count: number, sample: (index: number) => number): Float64Array {
  const out = new Float64Array(count);
  for (let index = 0; index < count; index++) out[index] = sample(index);
  return out;
}

/** Fades of a segment in samples of the track. */
function fadesOf(segment: { fadeInS?: number | undefined; fadeOutS?: number | undefined }, rateHz: number) {
  return { fadeIn: Math.round((segment.fadeInS ?? 0) * rateHz), fadeOut: Math.round((segment.fadeOutS ?? 0) * rateHz) };
}

/**
 * `a sin(2 pi fromHz L (exp(t / L) - 1))` with the segment's fades.
 *
 * Counted in whole samples, so that the result does not depend on how the track is cut into blocks.
 */
export function sweepWave(segment: SweepSegment, rateHz: number): Wave {
  const frames = sweepFrames(segment.durationS, rateHz);
  const { fadeIn, fadeOut } = fadesOf(segment, rateHz);
  const constantS = sweepConstantS(segment);
  const phase = 2 * Math.PI * segment.fromHz * constantS;
  const amplitude = amplitudeFromDb(segment.levelDbfs);
  return {
    frames,
    fill: (from, count) =>
      filled(count, (index) => {
        const n = from + index;
        const wave = Math.sin(phase * Math.expm1(n / rateHz / constantS));
        return amplitude * fadeWeight(n, frames, fadeIn, fadeOut) * wave;
      }),
  };
}

/** A marker's chirp; short enough to be held whole. */
export function markerWave(segment: MarkerSegment, rateHz: number): Wave {
  const samples = linearChirp(segment, rateHz);
  return { frames: samples.length, fill: (from, count) => samples.subarray(from, from + count) };
}

/** A steady sine from `phaseDeg` with the segment's fades. */
export function toneWave(segment: ToneSegment, rateHz: number): Wave {
  const frames = Math.round(segment.durationS * rateHz);
  const { fadeIn, fadeOut } = fadesOf(segment, rateHz);
  const amplitude = amplitudeFromDb(segment.levelDbfs);
  const start = (segment.phaseDeg ?? 0) / 360;
  return {
    frames,
    fill: (from, count) =>
      filled(count, (index) => {
        const n = from + index;
        // Whole turns are dropped before the sine, so that a long tone stays as exact as a short one.
        const turns = (segment.fHz * n) / rateHz + start;
        return amplitude * fadeWeight(n, frames, fadeIn, fadeOut) * Math.sin(2 * Math.PI * (turns - Math.floor(turns)));
      }),
  };
}

/** What a `blip` segment holds besides its place: a short tone that glides, to the same or a lower frequency too. */
export type BlipShape = SweepShape;

/** A sine whose frequency moves linearly from `fromHz` to `toHz`. */
export function blipWave(segment: BlipShape, rateHz: number): Wave {
  const frames = Math.round(segment.durationS * rateHz);
  const { fadeIn, fadeOut } = fadesOf(segment, rateHz);
  const amplitude = amplitudeFromDb(segment.levelDbfs);
  const { fromHz, toHz, durationS } = segment;
  return {
    frames,
    fill: (from, count) =>
      filled(count, (index) => {
        const n = from + index;
        const t = n / rateHz;
        const turns = fromHz * t + ((toHz - fromHz) * t * t) / (2 * durationS);
        return amplitude * fadeWeight(n, frames, fadeIn, fadeOut) * Math.sin(2 * Math.PI * turns);
      }),
  };
}

/** What a `pulses` segment holds besides its place and level. */
export interface PulsesShape {
  /** 1: each pulse first moves up; -1: the whole train upside down. */
  sign: 1 | -1;
  widthS: number;
  /** Length of the slow opposite half-wave that follows each pulse and takes its steady offset away. */
  tailWidthS: number;
  /** Starts of the pulses after the segment's start, rising. */
  pulseStartsS: number[];
}

/**
 * One-sided pulses: a raised cosine as wide as half a turn of the middle of a band, then a low opposite one of equal
 * area, so that the samples of each pulse add up to nothing.
 */
export function pulsesWave(segment: PulsesSegment & PulsesShape, rateHz: number): Wave {
  const frames = Math.round(segment.durationS * rateHz);
  const width = Math.round(segment.widthS * rateHz);
  const tail = Math.round(segment.tailWidthS * rateHz);
  const starts = segment.pulseStartsS.map((startS) => Math.round(startS * rateHz));
  const height = segment.sign * amplitudeFromDb(segment.levelDbfs);
  const pulse = filled(width + tail, (n) =>
    n < width
      ? height * (0.5 - 0.5 * Math.cos((2 * Math.PI * n) / width))
      : -height * (width / tail) * (0.5 - 0.5 * Math.cos((2 * Math.PI * (n - width)) / tail)),
  );
  return {
    frames,
    fill(from, count) {
      const out = new Float64Array(count);
      for (const start of starts) {
        const first = Math.max(start, from);
        const end = Math.min(start + pulse.length, from + count);
        for (let n = first; n < end; n++) out[n - from] += pulse[n - start];
      }
      return out;
    },
  };
}
