// The played file, made again from its description with formulas of the practice bay's own.
import type {
  MarkerSegment,
  NoiseSegment,
  SweepSegment,
  ToneSegment,
  TrackDescription,
  TrackSegment,
} from '../signals/track.ts';
import { addAt } from './convolution.ts';
import { pinkPeriod } from './pink-noise.ts';

/** Both sides of a played file, full scale = 1. */
export interface TrackAudio {
  left: Float64Array;
  right: Float64Array;
}

const raisedCosine = (share: number): number => 0.5 - 0.5 * Math.cos(Math.PI * share);

const amplitude = (levelDbfs: number): number => 10 ** (levelDbfs / 20);

/** `a sin(2 pi f1 L (exp(t / L) - 1))`, floor(duration rate) + 1 samples, faded at its ends (A. Farina, AES 108, 2000). */
function sweepWave(segment: SweepSegment, rateHz: number): Float64Array {
  const { fromHz, toHz, durationS } = segment;
  const perEfoldS = durationS / Math.log(toHz / fromHz);
  const wave = new Float64Array(Math.floor(durationS * rateHz + 1e-6) + 1);
  for (let n = 0; n < wave.length; n++) {
    const phase = 2 * Math.PI * fromHz * perEfoldS * (Math.exp(n / rateHz / perEfoldS) - 1);
    wave[n] = amplitude(segment.levelDbfs) * Math.sin(phase);
  }
  const rising = Math.round((segment.fadeInS ?? 0) * rateHz);
  const falling = Math.round((segment.fadeOutS ?? 0) * rateHz);
  for (let n = 0; n < rising; n++) wave[n] *= raisedCosine(n / rising);
  for (let n = 0; n < falling; n++) wave[wave.length - falling + n] *= 1 - raisedCosine((n + 1) / falling);
  return wave;
}

/** Linear chirp whose edges rise and fall over a quarter of its length each. */
function markerWave(segment: MarkerSegment, rateHz: number): Float64Array {
  const { fromHz, toHz, durationS } = segment;
  const wave = new Float64Array(Math.round(durationS * rateHz));
  const edge = Math.floor(wave.length / 4);
  for (let n = 0; n < wave.length; n++) {
    const t = n / rateHz;
    const phase = 2 * Math.PI * (fromHz * t + ((toHz - fromHz) * t * t) / (2 * durationS));
    wave[n] = amplitude(segment.levelDbfs) * Math.sin(phase);
  }
  for (let n = 0; n < edge; n++) {
    const weight = raisedCosine((n + 0.5) / edge);
    wave[n] *= weight;
    wave[wave.length - 1 - n] *= weight;
  }
  return wave;
}

function toneWave(segment: ToneSegment, rateHz: number): Float64Array {
  const wave = new Float64Array(Math.round(segment.durationS * rateHz));
  const phase = ((segment.phaseDeg ?? 0) * Math.PI) / 180;
  for (let n = 0; n < wave.length; n++) {
    wave[n] = amplitude(segment.levelDbfs) * Math.sin((2 * Math.PI * segment.fHz * n) / rateHz + phase);
  }
  const rising = Math.round((segment.fadeInS ?? 0) * rateHz);
  const falling = Math.round((segment.fadeOutS ?? 0) * rateHz);
  for (let n = 0; n < rising; n++) wave[n] *= raisedCosine(n / rising);
  for (let n = 0; n < falling; n++) wave[wave.length - 1 - n] *= raisedCosine(n / falling);
  return wave;
}

/** The noise of a segment for one seed: its period repeated, its peak at the level. */
function noiseWave(segment: NoiseSegment, rateHz: number, seed: number): Float64Array {
  const period = pinkPeriod(
    seed,
    segment.periodSamples ?? 131_072,
    rateHz,
    segment.fromHz ?? 20,
    segment.toHz ?? 20_000,
  );
  const peak = period.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const wave = new Float64Array(Math.round(segment.durationS * rateHz));
  for (let n = 0; n < wave.length; n++) {
    wave[n] = (amplitude(segment.levelDbfs) * period[n % period.length]) / peak;
  }
  return wave;
}

function addSides(
  audio: TrackAudio,
  segment: { side: 'left' | 'right' | 'both' },
  at: number,
  wave: Float64Array,
): void {
  if (segment.side !== 'right') addAt(audio.left, wave, at);
  if (segment.side !== 'left') addAt(audio.right, wave, at);
}

function addNoise(audio: TrackAudio, segment: NoiseSegment, at: number, rateHz: number): void {
  const wave = noiseWave(segment, rateHz, segment.seed);
  if (segment.side !== 'both') {
    addSides(audio, segment, at, wave);
    return;
  }
  addAt(audio.left, wave, at);
  if (segment.relation === 'independent') addAt(audio.right, noiseWave(segment, rateHz, segment.seed + 1), at);
  else addAt(audio.right, wave, at, segment.relation === 'opposite' ? -1 : 1);
}

/** Kinds this bay can play. */
export function isPlayed(segment: TrackSegment): segment is MarkerSegment | SweepSegment | NoiseSegment | ToneSegment {
  return ['marker', 'sweep', 'noise', 'tone'].includes(segment.kind);
}

/**
 * Both sides of the file that a description stands for.
 *
 * @param track  kinds other than marker, sweep, noise and tone stay silent
 * @returns `round(durationS rateHz)` samples each (longer where a segment runs over), full scale = 1
 */
export function trackAudio(track: TrackDescription): TrackAudio {
  const { rateHz } = track;
  const ends = track.segments.map(({ startS, durationS }) => Math.round(startS * rateHz) + durationS * rateHz + 1);
  const frames = Math.max(Math.round(track.durationS * rateHz), ...ends.map(Math.ceil));
  const audio = { left: new Float64Array(frames), right: new Float64Array(frames) };
  for (const segment of track.segments) {
    if (!isPlayed(segment)) continue;
    const at = Math.round(segment.startS * rateHz);
    if (segment.kind === 'marker')
      addSides(audio, segment as MarkerSegment, at, markerWave(segment as MarkerSegment, rateHz));
    if (segment.kind === 'sweep')
      addSides(audio, segment as SweepSegment, at, sweepWave(segment as SweepSegment, rateHz));
    if (segment.kind === 'tone') addSides(audio, segment as ToneSegment, at, toneWave(segment as ToneSegment, rateHz));
    if (segment.kind === 'noise') addNoise(audio, segment as NoiseSegment, at, rateHz);
  }
  return audio;
}
