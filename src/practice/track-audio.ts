// The played file, made again from its description with formulas of the practice bay's own.
import type {
  MarkerSegment,
  NoiseSegment,
  PulsesSegment,
  SweepSegment,
  ToneSegment,
  TrackDescription,
  TrackSegment,
} from '../signals/track.ts';
import { addAt } from './convolution.ts';
import { blipWave, markerWave, noiseWaves, pulsesWave, sweepWave, toneWave } from './track-waves.ts';

/** Both sides of a played file, full scale = 1. */
export interface TrackAudio {
  left: Float64Array;
  right: Float64Array;
}

/** What a segment plays on each side; null: nothing that this bay knows. */
function wavesOf(segment: TrackSegment, rateHz: number): TrackAudio | null {
  const same = (wave: Float64Array): TrackAudio => ({ left: wave, right: wave });
  switch (segment.kind) {
    case 'marker':
      return same(markerWave(segment as MarkerSegment, rateHz));
    case 'sweep':
      return same(sweepWave(segment as SweepSegment, rateHz));
    case 'tone':
      return same(toneWave(segment as ToneSegment, rateHz));
    case 'blip':
      return same(blipWave(segment as unknown as MarkerSegment, rateHz));
    case 'pulses':
      return same(pulsesWave(segment as PulsesSegment, rateHz));
    case 'noise':
      return noiseWaves(segment as NoiseSegment, rateHz);
    default:
      return null;
  }
}

/**
 * Both sides of the file that a description stands for.
 *
 * @param track  kinds other than marker, sweep, noise, tone, pulses and blip stay silent
 * @returns `round(durationS rateHz)` samples each (longer where a segment runs over), full scale = 1
 */
export function trackAudio(track: TrackDescription): TrackAudio {
  const { rateHz } = track;
  const ends = track.segments.map(({ startS, durationS }) => Math.round(startS * rateHz) + durationS * rateHz + 1);
  const frames = Math.max(Math.round(track.durationS * rateHz), ...ends.map(Math.ceil));
  const audio = { left: new Float64Array(frames), right: new Float64Array(frames) };
  for (const segment of track.segments) {
    const waves = wavesOf(segment, rateHz);
    if (!waves) continue;
    const at = Math.round(segment.startS * rateHz);
    const side = (segment as { side?: string }).side ?? 'both';
    if (side !== 'right') addAt(audio.left, waves.left, at);
    if (side !== 'left') addAt(audio.right, waves.right, at);
  }
  return audio;
}
