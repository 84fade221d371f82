// The wave of each kind of segment, straight from the formulas by which tracks are described.
import type { MarkerSegment, NoiseSegment, PulsesSegment, SweepSegment, ToneSegment } from '../signals/track.ts';
import { pinkPeriod } from './pink-noise.ts';

const raisedCosine = (share: number): number => 0.5 - 0.5 * Math.cos(Math.PI * share);

const amplitude = (levelDbfs: number): number => 10 ** (levelDbfs / 20);

const numberOr = (value: unknown, otherwise: number): number => (typeof value === 'number' ? value : otherwise);

/** Raised-cosine fades in place: the first sample and the last are 0. */
function faded(wave: Float64Array, segment: { fadeInS?: unknown; fadeOutS?: unknown }, rateHz: number): Float64Array {
  const rising = Math.round(numberOr(segment.fadeInS, 0) * rateHz);
  const falling = Math.round(numberOr(segment.fadeOutS, 0) * rateHz);
  for (let n = 0; n < Math.min(rising, wave.length); n++) wave[n] *= raisedCosine(n / rising);
  for (let n = 0; n < Math.min(falling, wave.length); n++) wave[wave.length - 1 - n] *= raisedCosine(n / falling);
  return wave;
}

/** `a sin(2 pi f1 L (exp(t / L) - 1))`, floor(duration rate) + 1 samples (A. Farina, AES 108, 2000). */
export function sweepWave(segment: SweepSegment, rateHz: number): Float64Array {
  const { fromHz, toHz, durationS } = segment;
  const perEfoldS = durationS / Math.log(toHz / fromHz);
  const wave = new Float64Array(Math.floor(durationS * rateHz + 1e-6) + 1);
  for (let n = 0; n < wave.length; n++) {
    const phase = 2 * Math.PI * fromHz * perEfoldS * (Math.exp(n / rateHz / perEfoldS) - 1);
    wave[n] = amplitude(segment.levelDbfs) * Math.sin(phase);
  }
  return faded(wave, segment, rateHz);
}

/** `round(duration rate)` samples of a sine whose frequency moves along a straight line. */
function glide(segment: Pick<MarkerSegment, 'durationS' | 'fromHz' | 'toHz' | 'levelDbfs'>, rateHz: number) {
  const { fromHz, toHz, durationS } = segment;
  const wave = new Float64Array(Math.round(durationS * rateHz));
  for (let n = 0; n < wave.length; n++) {
    const t = n / rateHz;
    const phase = 2 * Math.PI * (fromHz * t + ((toHz - fromHz) * t * t) / (2 * durationS));
    wave[n] = amplitude(segment.levelDbfs) * Math.sin(phase);
  }
  return wave;
}

/** Linear chirp whose edges rise and fall over a quarter of its length each. */
export function markerWave(segment: MarkerSegment, rateHz: number): Float64Array {
  const wave = glide(segment, rateHz);
  const edge = Math.floor(wave.length / 4);
  for (let n = 0; n < edge; n++) {
    const weight = raisedCosine((n + 0.5) / edge);
    wave[n] *= weight;
    wave[wave.length - 1 - n] *= weight;
  }
  return wave;
}

/** A short tone that glides, with ordinary fades. */
export function blipWave(
  segment: Pick<MarkerSegment, 'durationS' | 'fromHz' | 'toHz' | 'levelDbfs'>,
  rateHz: number,
): Float64Array {
  return faded(glide(segment, rateHz), segment as { fadeInS?: unknown; fadeOutS?: unknown }, rateHz);
}

export function toneWave(segment: ToneSegment, rateHz: number): Float64Array {
  const wave = new Float64Array(Math.round(segment.durationS * rateHz));
  const phase = ((segment.phaseDeg ?? 0) * Math.PI) / 180;
  for (let n = 0; n < wave.length; n++) {
    wave[n] = amplitude(segment.levelDbfs) * Math.sin((2 * Math.PI * segment.fHz * n) / rateHz + phase);
  }
  return faded(wave, segment, rateHz);
}

/** Raised-cosine pulses, each followed by a low slow one of the same area the other way. */
export function pulsesWave(segment: PulsesSegment, rateHz: number): Float64Array {
  const { sign, widthS, tailWidthS, pulseStartsS } = segment as Record<string, unknown>;
  const width = Math.round(numberOr(widthS, 0.001) * rateHz);
  const tail = Math.round(numberOr(tailWidthS, 0.01) * rateHz);
  const height = numberOr(sign, 1) * amplitude(segment.levelDbfs);
  const wave = new Float64Array(Math.round(segment.durationS * rateHz));
  for (const startS of Array.isArray(pulseStartsS) ? (pulseStartsS as number[]) : []) {
    const start = Math.round(startS * rateHz);
    for (let n = 0; n < width + tail && start + n < wave.length; n++) {
      wave[start + n] +=
        n < width
          ? height * raisedCosine((2 * n) / width)
          : -height * (width / tail) * raisedCosine((2 * (n - width)) / tail);
    }
  }
  return wave;
}

const peakOf = (signal: Float64Array): number => signal.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** Noise of both sides, one period over and over, the higher of their peaks at the level, with the segment's fades. */
export function noiseWaves(segment: NoiseSegment, rateHz: number): { left: Float64Array; right: Float64Array } {
  const { seedRight, crestLimitDb } = segment as Record<string, unknown>;
  const period = (seed: number) =>
    pinkPeriod(seed, segment.periodSamples ?? 131_072, {
      rateHz,
      fromHz: segment.fromHz ?? 20,
      toHz: segment.toHz ?? 20_000,
      crestLimitDb: numberOr(crestLimitDb, Number.POSITIVE_INFINITY),
    });
  const left = period(segment.seed);
  const right = segment.relation === 'independent' ? period(numberOr(seedRight, segment.seed + 1)) : left;
  const scale = amplitude(segment.levelDbfs) / Math.max(peakOf(left), peakOf(right));
  const long = (one: Float64Array, gain: number) => {
    const frames = Math.round(segment.durationS * rateHz);
    const wave = Float64Array.from({ length: frames }, (_, n) => gain * one[n % one.length]);
    return faded(wave, segment as { fadeInS?: unknown; fadeOutS?: unknown }, rateHz);
  };
  return { left: long(left, scale), right: long(right, segment.relation === 'opposite' ? -scale : scale) };
}
