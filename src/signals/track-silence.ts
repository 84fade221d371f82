// The stretches of a track in which nothing plays.

import { sweepFrames } from './sweep.ts';
import type { SweepSegment, TrackDescription } from './track.ts';
import type { FrameRange } from './wav/encode-samples.ts';

/**
 * Stretches of at least `leastS` that no segment but silence covers, in order.
 *
 * There a player that is muted or asleep cannot be told from the track by anything but exact zeros, so no dither goes
 * into them.
 */
export function silentRanges(track: TrackDescription, leastS: number): FrameRange[] {
  const { rateHz } = track;
  const frames = Math.ceil(track.durationS * rateHz - 1e-6);
  const sounds = track.segments
    .filter(({ kind }) => kind !== 'silence')
    .map((segment) => {
      const start = Math.round(segment.startS * rateHz);
      const length =
        segment.kind === 'sweep'
          ? sweepFrames((segment as SweepSegment).durationS, rateHz)
          : Math.round(segment.durationS * rateHz);
      return { start, end: start + length };
    })
    .sort((a, b) => a.start - b.start);
  const ranges: FrameRange[] = [];
  let cursor = 0;
  for (const { start, end } of [...sounds, { start: frames, end: frames }]) {
    if (start - cursor >= leastS * rateHz) ranges.push({ startFrame: cursor, frames: start - cursor });
    cursor = Math.max(cursor, end);
  }
  return ranges;
}
