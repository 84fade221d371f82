// The sound of a track, made from its description alone, block by block: half an hour needs no more memory than a minute.
import { isRenderableNoise, noisePeriods, noiseWave } from './noise-segment.ts';
import {
  type BlipShape,
  blipWave,
  markerWave,
  type PulsesShape,
  pulsesWave,
  sweepWave,
  toneWave,
  type Wave,
} from './segment-wave.ts';
import type {
  MarkerSegment,
  NoiseSegment,
  PulsesSegment,
  Side,
  SweepSegment,
  ToneSegment,
  TrackDescription,
  TrackSegment,
} from './track.ts';

/** A track as samples on demand. */
export interface TrackAudio {
  readonly rateHz: number;
  readonly channels: number;
  /** Samples per channel. */
  readonly frames: number;
  /** Segments that the description does not define fully enough to be played; they stay silent. */
  readonly silentSegments: readonly TrackSegment[];
  /**
   * Samples `startFrame` .. `startFrame + length - 1`, one array a channel, full scale = 1; 0 outside the track. They do
   * not depend on how the track is cut into blocks.
   */
  renderBlock: (startFrame: number, length: number) => Float64Array[];
}

/** Waves of a segment's sides; the same object on both when they play the same. */
interface Voice {
  start: number;
  frames: number;
  waves: () => { left?: Wave | undefined; right?: Wave | undefined };
}

const wavesOf = {
  marker: (segment: TrackSegment, rateHz: number) => markerWave(segment as MarkerSegment, rateHz),
  sweep: (segment: TrackSegment, rateHz: number) => sweepWave(segment as SweepSegment, rateHz),
  tone: (segment: TrackSegment, rateHz: number) => toneWave(segment as ToneSegment, rateHz),
  blip: (segment: TrackSegment, rateHz: number) => blipWave(segment as unknown as BlipShape, rateHz),
  pulses: (segment: TrackSegment, rateHz: number) => pulsesWave(segment as PulsesSegment & PulsesShape, rateHz),
};

function isPlayable(segment: TrackSegment): boolean {
  const numbers = (...fields: string[]): boolean =>
    fields.every((field) => Number.isFinite((segment as Record<string, unknown>)[field]));
  const { kind } = segment;
  if (kind === 'noise') return isRenderableNoise(segment as NoiseSegment);
  if (kind === 'sweep') return (segment as SweepSegment).toHz > (segment as SweepSegment).fromHz;
  if (kind === 'blip') return numbers('fromHz', 'toHz', 'levelDbfs') && segment.durationS > 0;
  if (kind === 'pulses') {
    const starts = (segment as Partial<PulsesShape>).pulseStartsS;
    return numbers('sign', 'widthS', 'tailWidthS') && Array.isArray(starts) && starts.every(Number.isFinite);
  }
  return kind === 'marker' || kind === 'tone';
}

function bothSides(
  segment: TrackSegment,
  left: Wave,
  right: Wave,
): { left?: Wave | undefined; right?: Wave | undefined } {
  const side: Side = (segment as { side?: Side }).side ?? 'both';
  return { left: side === 'right' ? undefined : left, right: side === 'left' ? undefined : right };
}

/**
 * The sound that a track description describes.
 *
 * @param track  a valid description; foreign ones too, as far as they say what plays
 * @returns blocks of samples on demand, and the segments that cannot be played
 */
export function trackAudio(track: TrackDescription): TrackAudio {
  const { rateHz, channels } = track;
  const silentSegments: TrackSegment[] = [];
  const voices: Voice[] = [];
  // Only the noise that sounds now is kept: its periods are large, and a track may hold many of them.
  let noise: { segment: NoiseSegment; waves: { left?: Wave | undefined; right?: Wave | undefined } } | undefined;
  const noiseVoice = (segment: NoiseSegment) => {
    if (noise === undefined || !sameNoise(noise.segment, segment)) {
      const { left, right } = noisePeriods(segment, rateHz);
      const [leftWave, rightWave] = [noiseWave(segment, left, rateHz), noiseWave(segment, right, rateHz)];
      noise = { segment, waves: bothSides(segment, leftWave, rightWave) };
    }
    return noise.waves;
  };
  for (const segment of track.segments) {
    if (segment.kind === 'silence') continue;
    if (!isPlayable(segment)) {
      silentSegments.push(segment);
      continue;
    }
    const start = Math.round(segment.startS * rateHz);
    if (segment.kind === 'noise') {
      const frames = Math.round(segment.durationS * rateHz);
      voices.push({ start, frames, waves: () => noiseVoice(segment as NoiseSegment) });
    } else {
      const wave = wavesOf[segment.kind as keyof typeof wavesOf](segment, rateHz);
      const waves = bothSides(segment, wave, wave);
      voices.push({ start, frames: wave.frames, waves: () => waves });
    }
  }
  // A duration written with fewer digits than samples need may end within the last sample.
  const frames = Math.ceil(track.durationS * rateHz - 1e-6);
  return {
    rateHz,
    channels,
    frames,
    silentSegments,
    renderBlock(startFrame, length) {
      const out = Array.from({ length: channels }, () => new Float64Array(length));
      for (const voice of voices) {
        const first = Math.max(voice.start, startFrame, 0);
        const end = Math.min(voice.start + voice.frames, startFrame + length, frames);
        if (end <= first) continue;
        const { left, right } = voice.waves();
        const stretch = (wave: Wave): Float64Array => wave.fill(first - voice.start, end - first);
        const leftStretch = left && stretch(left);
        const rightStretch = right && (right === left ? leftStretch : stretch(right));
        const targets = channels === 1 ? [out[0], out[0]] : out;
        if (leftStretch) add(targets[0], leftStretch, first - startFrame);
        // One channel carries both sides; what they share sounds once.
        if (rightStretch && !(channels === 1 && leftStretch)) add(targets[1], rightStretch, first - startFrame);
      }
      return out;
    },
  };
}

function sameNoise(a: NoiseSegment, b: NoiseSegment): boolean {
  const shape = ({ startS: _, ...rest }: NoiseSegment): string => JSON.stringify(rest);
  return a === b || shape(a) === shape(b);
}

function add(target: Float64Array, samples: Float64Array, at: number): void {
  for (let n = 0; n < samples.length; n++) target[at + n] += samples[n];
}
