// `sweep`: the same exponential sweep as often as asked, on one side or the same on both.
import type { TrackDesign } from './design.ts';
import { singleGroup } from './group-sides.ts';
import { repeated } from './repeated.ts';
import { sweepEvent } from './sweep-event.ts';
import type { TrackScore } from './timeline.ts';

/** Score of a `sweep` track. */
export function sweepScore(design: TrackDesign): TrackScore {
  return { ...singleGroup(design), events: repeated(design.repeats, () => [sweepEvent(design, design.side)]) };
}
