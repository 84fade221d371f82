// `tone`: steady tones one after the other, for setting gains.
import type { TrackDesign } from './design.ts';
import { singleGroup } from './group-sides.ts';
import { repeated } from './repeated.ts';
import { REST_S, type TrackScore } from './timeline.ts';
import { tonePart } from './tone-event.ts';

/** Score of a `tone` track. */
export function toneScore(design: TrackDesign): TrackScore {
  return {
    ...singleGroup(design),
    events: design.tonesHz.flatMap((fHz) =>
      repeated(design.repeats, () => {
        const part = tonePart(design, fHz, design.levelDbfs);
        return [{ restS: REST_S, frames: part.frames, parts: [part] }];
      }),
    ),
  };
}
