// Exponential sweeps: a sine that rises by the same number of octaves each second.
import { amplitudeFromDb } from '../base/decibel.ts';

/** The part of a sweep segment that fixes its wave. */
export interface SweepShape {
  durationS: number;
  fromHz: number;
  toHz: number;
  levelDbfs: number;
  fadeInS?: number | undefined;
  fadeOutS?: number | undefined;
}

/** Seconds in which the frequency grows e-fold. */
export function sweepConstantS(shape: Pick<SweepShape, 'durationS' | 'fromHz' | 'toHz'>): number {
  return shape.durationS / Math.log(shape.toHz / shape.fromHz);
}

/**
 * Duration nearest to `secondsAsked` at which the harmonics of the sweep are exact copies of it, s.
 *
 * `fromHz * L` is then a whole number of cycles, at least one.
 *
 * Source: A. Novak, P. Lotton, L. Simon, Synchronized swept-sine, J. Audio Eng. Soc. 63(10), 2015.
 */
export function synchronisedDurationS(fromHz: number, toHz: number, secondsAsked: number): number {
  const octaves = Math.log(toHz / fromHz);
  const cycles = Math.max(1, Math.round((fromHz * secondsAsked) / octaves));
  return (cycles / fromHz) * octaves;
}

/** Time at which the sweep passes `fHz`, s after its first sample. */
export function sweepTimeS(shape: Pick<SweepShape, 'durationS' | 'fromHz' | 'toHz'>, fHz: number): number {
  return sweepConstantS(shape) * Math.log(fHz / shape.fromHz);
}

/** How far ahead of the linear response order `order` lies after deconvolution, s. */
export function harmonicLeadS(shape: Pick<SweepShape, 'durationS' | 'fromHz' | 'toHz'>, order: number): number {
  return sweepConstantS(shape) * Math.log(order);
}

/** Samples in the sweep at `rateHz`, both ends included. */
export function sweepFrames(durationS: number, rateHz: number): number {
  // The guard keeps a duration that is a whole number of samples from losing one to rounding.
  return Math.floor(durationS * rateHz + 1e-9) + 1;
}

/**
 * The sweep sampled at `rateHz`, optionally at instants between the track's own samples.
 *
 * `a sin(2 pi fromHz L (exp(t / L) - 1))`, raised-cosine fades inside its length. The fades are counted in samples of
 * the track (`trackRateHz`), as the track was made; evaluated elsewhere they are the same continuous curves.
 *
 * @param shape        0 < fromHz < toHz; durationS > 0
 * @param rateHz       samples per second of the result, 8 000 .. 384 000 (need not be whole)
 * @param options.offsetS      time of the first sample of the result after the sweep's start, s; default 0
 * @param options.trackRateHz  rate of the track; default `rateHz`
 * @param options.frames       length of the result; default: up to the sweep's last sample
 * @returns full scale = 1; 0 before and after the sweep
 * @throws RangeError a shape that is no sweep
 * Source: A. Farina, Simultaneous measurement of impulse response and distortion with a swept-sine technique, 108th
 *   AES Convention, preprint 5093, 2000.
 */
export function exponentialSweep(
  shape: SweepShape,
  rateHz: number,
  options: { offsetS?: number; trackRateHz?: number; frames?: number } = {},
): Float64Array {
  const { durationS, fromHz, toHz } = shape;
  if (!(fromHz > 0 && toHz > fromHz && durationS > 0)) {
    throw new RangeError(
      `a sweep needs 0 < fromHz < toHz and durationS > 0, got ${fromHz}..${toHz} Hz, ${durationS} s`,
    );
  }
  const trackRateHz = options.trackRateHz ?? rateHz;
  const offsetS = options.offsetS ?? 0;
  const trackFrames = sweepFrames(durationS, trackRateHz);
  const lastS = (trackFrames - 1) / trackRateHz;
  const frames = options.frames ?? Math.floor((lastS - offsetS) * rateHz + 1e-9) + 1;
  const constantS = sweepConstantS(shape);
  const cycles = 2 * Math.PI * fromHz * constantS;
  const amplitude = amplitudeFromDb(shape.levelDbfs);
  const fadeIn = Math.round((shape.fadeInS ?? 0) * trackRateHz);
  const fadeOut = Math.round((shape.fadeOutS ?? 0) * trackRateHz);
  const fadeOutFrom = trackFrames - fadeOut;
  const out = new Float64Array(Math.max(0, frames));
  for (let n = 0; n < out.length; n++) {
    const t = n / rateHz + offsetS;
    if (t < -1e-12 || t > lastS + 0.5 / trackRateHz) continue;
    let value = amplitude * Math.sin(cycles * Math.expm1(t / constantS));
    const at = t * trackRateHz;
    if (at < fadeIn) value *= 0.5 - 0.5 * Math.cos((Math.PI * at) / fadeIn);
    if (at >= fadeOutFrom) value *= 0.5 + 0.5 * Math.cos((Math.PI * Math.min(fadeOut, at - fadeOutFrom + 1)) / fadeOut);
    out[n] = value;
  }
  return out;
}
