// `ladder`: where a source stops being clean. Without levels the tones stay the same and the person turns the volume up
// one step in each rest; with levels the file itself rises while the volume stays.
import type { TrackDesign } from './design.ts';
import { singleGroup } from './group-sides.ts';
import { repeated } from './repeated.ts';
import type { EventPart, TrackEvent, TrackScore } from './timeline.ts';
import { tonePart } from './tone-event.ts';

/** Time for a hand to turn the volume up one step. */
const HAND_REST_S = 2;
const RUNG_REST_S = 0.5;
/** Between the tones of one rung. */
const TONE_REST_S = 0.2;

/** Score of a `ladder` track; every rung plays all tones, and its segments carry its number. */
export function ladderScore(design: TrackDesign): TrackScore {
  const { levelsDbfs, repeats, levelDbfs } = design;
  const levels =
    levelsDbfs.length > 0
      ? levelsDbfs.flatMap((level) => repeated(repeats, () => [level]))
      : repeated(repeats, () => [levelDbfs]);
  const restS = levelsDbfs.length > 0 ? RUNG_REST_S : HAND_REST_S;
  return { ...singleGroup(design), events: levels.map((level, index) => rung(design, level, restS, index + 1)) };
}

function rung(design: TrackDesign, levelDbfs: number, restS: number, number: number): TrackEvent {
  const parts: EventPart[] = [];
  let frames = 0;
  for (const fHz of design.tonesHz) {
    if (parts.length > 0) frames += Math.round(TONE_REST_S * design.rateHz);
    const part = tonePart(design, fHz, levelDbfs, frames, { rung: number });
    parts.push(part);
    frames += part.frames;
  }
  return { restS, frames, parts };
}
