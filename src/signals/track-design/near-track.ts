// `near`: for a microphone held close to one driver while everything plays. A sweep on the left, the same on the right:
// the side that is louder in the driver's band is the side that feeds it. Markers come on both sides, so that every
// driver that reaches their band hears them.
import type { TrackDesign } from './design.ts';
import { singleGroup } from './group-sides.ts';
import { repeated } from './repeated.ts';
import { sweepEvent } from './sweep-event.ts';
import type { TrackScore } from './timeline.ts';

/** Score of a `near` track. */
export function nearScore(design: TrackDesign): TrackScore {
  return {
    ...singleGroup(design),
    events: repeated(design.repeats, () => [sweepEvent(design, 'left'), sweepEvent(design, 'right')]),
  };
}
