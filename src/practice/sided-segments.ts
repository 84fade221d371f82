// Segments of a track that sound, as one shape for all kinds.
import type { Side, TrackDescription } from '../signals/track.ts';

const SIDED_KINDS = ['marker', 'sweep', 'noise', 'tone', 'pulses', 'blip'];

/** A segment that sounds on a side; which frequencies it names depends on its kind. */
export interface SidedSegment {
  kind: string;
  side: Side;
  startS: number;
  durationS: number;
  fromHz?: number;
  toHz?: number;
  fHz?: number;
  levelDbfs: number;
}

/** A frequency in the middle of what the segment covers, Hz. */
export function middleHz(segment: SidedSegment): number {
  return segment.fHz ?? Math.sqrt((segment.fromHz ?? 50) * (segment.toHz ?? 10_000));
}

/** Those segments with their index in the description. */
export function sidedSegments(track: TrackDescription): { index: number; segment: SidedSegment }[] {
  return track.segments
    .map((segment, index) => ({ index, segment: segment as unknown as SidedSegment }))
    .filter(({ segment }) => SIDED_KINDS.includes(segment.kind));
}
