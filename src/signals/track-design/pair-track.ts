// `pair`: how much later the left of two like drivers is heard than the right. Markers left, then right, do it for
// drivers that play them; a sweep left, then the same right, for those that lie below.
import type { Side } from '../track.ts';
import type { TrackDesign } from './design.ts';
import { repeated } from './repeated.ts';
import { sweepEvent } from './sweep-event.ts';
import type { TrackScore } from './timeline.ts';

/** Score of a `pair` track. Without sweeps it is the markers that repeat. */
export function pairScore(design: TrackDesign): TrackScore {
  const sides: Side[] = ['left', 'right'];
  const groups = (times: number): Side[] => (design.markerSide === 'none' ? [] : repeated(times, () => sides));
  return {
    opening: groups(design.pairSweeps ? 1 : design.repeats),
    closing: groups(1),
    events: design.pairSweeps
      ? repeated(design.repeats, () => [sweepEvent(design, 'left'), sweepEvent(design, 'right')])
      : [],
  };
}
