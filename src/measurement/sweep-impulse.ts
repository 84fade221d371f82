// From the stretch of a recording in which a sweep played to the impulse response of the car.
import { type DeconvolutionBand, transferFunction } from '../signals/deconvolution.ts';
import { inverseRealFft, powerOfTwoFrom, realFft, type Spectrum } from '../signals/fft.ts';
import type { Recording } from '../signals/recording.ts';
import { exponentialSweep, type SweepShape, sweepConstantS, sweepFrames, sweepTimeS } from '../signals/sweep.ts';
import { type PowerCurve, powerCurve } from './power-curve.ts';

/** An impulse response on a circle: time zero at index 0, negative times at the end. */
export interface CircularImpulse {
  /** Samples per second of the player's clock. */
  rateHz: number;
  size: number;
  samples: Float64Array;
}

/** That of one sweep; harmonics stand at negative times. */
export interface SweepImpulse extends CircularImpulse {
  shape: SweepShape;
  /** Power of the sweep as played, level included, over the bins of the transform. */
  played: PowerCurve;
  /** Highest frequency the sweep and the recorder share, Hz. */
  toHz: number;
  /** Sound after the sweep's end that was taken in, s. */
  tailS: number;
}

/** Share of the recorder's rate up to which its converter is trusted. */
const USABLE_SHARE = 0.48;

/**
 * Deconvolves one sweep at the recorder's own samples.
 *
 * The sweep is a formula, so it is evaluated at the instants at which the recorder sampled (its clock relabelled to the
 * player's) instead of resampling the recording: no interpolation error, any fraction of a sample, any pair of rates.
 *
 * @param startPosition  recorder sample, fractional, at which the sweep's first sample falls
 * @param effectiveRateHz recorded samples per second of the player's clock
 * @param trackRateHz    rate of the track (its fades are counted in its samples)
 * @param tailS          sound after the sweep to take in, s
 */
export function sweepImpulse(
  recording: Recording,
  channel: number,
  shape: SweepShape,
  startPosition: number,
  effectiveRateHz: number,
  trackRateHz: number,
  tailS: number,
): SweepImpulse {
  const whole = Math.floor(startPosition);
  const fraction = startPosition - whole;
  const toHz = Math.min(shape.toHz, USABLE_SHARE * effectiveRateHz);
  const length = sweepFrames(shape.durationS, effectiveRateHz) + Math.round(tailS * effectiveRateHz);
  // Half a minute at 96 kHz is 32 MB a copy: each step takes over what the one before leaves.
  const played = exponentialSweep(shape, effectiveRateHz, {
    offsetS: -fraction / effectiveRateHz,
    trackRateHz,
    frames: length,
  });
  if (toHz < shape.toHz) fadeAbove(played, shape, toHz, effectiveRateHz);
  const size = powerOfTwoFrom(length);
  const { power, h } = divided(played, { recording, channel, start: whole }, size, {
    rateHz: effectiveRateHz,
    fromHz: shape.fromHz,
    toHz,
  });
  return {
    shape,
    rateHz: effectiveRateHz,
    size,
    samples: inverseRealFft(h.re, h.im, size),
    played: power,
    toHz,
    tailS,
  };
}

/** The played power needs no finer bins than these: a sweep's spectrum is smooth. */
const MOST_BINS = 1 << 19;

/** The transfer function, and the power of what was played; `played` is overwritten. */
function divided(
  played: Float64Array,
  { recording, channel, start }: { recording: Recording; channel: number; start: number },
  size: number,
  band: DeconvolutionBand,
): { power: PowerCurve; h: Spectrum } {
  const spectrum = realFft(played, size);
  const power = powerCurve(spectrum, band.rateHz / size, Math.max(1, size / 2 / MOST_BINS));
  recording.readChannel(channel, start, played.length, played);
  withoutOffset(played);
  const h = transferFunction(realFft(played, size), spectrum, size, band, spectrum);
  return { power, h };
}

/** A recorder's offset from zero is cut off at both ends: left in, its steps would reach into the lowest octaves. */
function withoutOffset(samples: Float64Array): void {
  let sum = 0;
  for (let n = 0; n < samples.length; n++) sum += samples[n];
  const mean = samples.length > 0 ? sum / samples.length : 0;
  for (let n = 0; n < samples.length; n++) samples[n] -= mean;
}

/** Takes away what lies above the recorder's reach: evaluated there, the formula would fold down. */
function fadeAbove(played: Float64Array, shape: SweepShape, toHz: number, rateHz: number): void {
  const end = sweepTimeS(shape, toHz) * rateHz;
  const fade = (sweepConstantS(shape) * Math.LN2 * rateHz) / 12;
  for (let n = Math.max(0, Math.floor(end - fade)); n < played.length; n++) {
    const out = (n - end + fade) / fade;
    played[n] *= out >= 1 ? 0 : 0.5 + 0.5 * Math.cos(Math.PI * Math.max(0, out));
  }
}

/** A window with half-cosine edges, in seconds about time zero: 1 between its edges, 0 outside. */
export interface TimeWindow {
  fromS: number;
  toS: number;
  riseS: number;
  fallS: number;
}

/** Value of the window at `timeS`. */
export function windowValue(window: TimeWindow, timeS: number): number {
  if (timeS <= window.fromS || timeS >= window.toS) return 0;
  const rise = window.riseS > 0 ? Math.min(1, (timeS - window.fromS) / window.riseS) : 1;
  const fall = window.fallS > 0 ? Math.min(1, (window.toS - timeS) / window.fallS) : 1;
  return (0.5 - 0.5 * Math.cos(Math.PI * rise)) * (0.5 - 0.5 * Math.cos(Math.PI * fall));
}

/**
 * The windowed stretch of an impulse response, cut out with time zero at `originS`.
 *
 * @returns `samples[i]` is at time `firstS + i / rateHz`; `energy` is the window's sum of squares
 */
export function windowed(
  impulse: CircularImpulse,
  window: TimeWindow,
): { samples: Float64Array; firstS: number; energy: number } {
  const first = Math.ceil(window.fromS * impulse.rateHz);
  const last = Math.floor(window.toS * impulse.rateHz);
  const samples = new Float64Array(Math.max(0, last - first + 1));
  let energy = 0;
  for (let i = 0; i < samples.length; i++) {
    const weight = windowValue(window, (first + i) / impulse.rateHz);
    const at = (((first + i) % impulse.size) + impulse.size) % impulse.size;
    samples[i] = weight * impulse.samples[at];
    energy += weight * weight;
  }
  return { samples, firstS: first / impulse.rateHz, energy };
}

/**
 * Spectrum of a stretch of an impulse response, phase counted from `originS`.
 *
 * @param size transform length, a power of two at least as long as the stretch
 */
export function spectrumAbout(
  stretch: { samples: Float64Array; firstS: number },
  originS: number,
  rateHz: number,
  size: number,
): Spectrum {
  const { re, im } = realFft(stretch.samples, size);
  const delayS = stretch.firstS - originS;
  for (let k = 0; k < re.length; k++) {
    const angle = (-2 * Math.PI * k * rateHz * delayS) / size;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    const r = re[k] * c - im[k] * s;
    im[k] = re[k] * s + im[k] * c;
    re[k] = r;
  }
  return { re, im };
}
