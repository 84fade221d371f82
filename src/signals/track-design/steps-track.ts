// `steps`: the same sweep at rising level, a marker of fixed level before each. A marker that stays while a step falls
// short blames the car; a marker that falls too blames recorder or player.
import type { TrackDesign } from './design.ts';
import { singleGroup } from './group-sides.ts';
import { markerSegment } from './markers.ts';
import { repeated } from './repeated.ts';
import { sweepPart } from './sweep-event.ts';
import { REST_S, type TrackEvent, type TrackScore } from './timeline.ts';

/** Silence between a step's marker and its sweep. */
const MARKER_REST_S = 0.5;
/** Voice coils warm up in the loud steps: those at the end wait longer. */
const LONG_REST_S = 3;
const LONG_RESTS = 3;
/** How far the steps' markers lie under those of the groups, dB: they stay quiet where the first step is quiet. */
const STEP_MARKER_UNDER_DB = 6;

/** Score of a `steps` track: its levels in order, and the first once more at the end, to show what heat has changed. */
export function stepsScore(design: TrackDesign): TrackScore {
  const levels = design.levelsDbfs;
  const step = (levelDbfs: number, restS: number): TrackEvent[] =>
    repeated(design.repeats, () => [stepEvent(design, levelDbfs, restS)]);
  return {
    ...singleGroup(design),
    events: [
      ...levels.flatMap((level, index) => step(level, index >= levels.length - LONG_RESTS ? LONG_REST_S : REST_S)),
      ...step(levels[0], REST_S),
    ],
  };
}

function stepEvent(design: TrackDesign, levelDbfs: number, restS: number): TrackEvent {
  const { marker, markerSide, rateHz } = design;
  if (markerSide === 'none') {
    const sweep = sweepPart(design, design.side, levelDbfs);
    return { restS, frames: sweep.frames, parts: [sweep] };
  }
  const markerDbfs = marker.levelDbfs - STEP_MARKER_UNDER_DB;
  const sweepFrom = Math.round((marker.durationS + MARKER_REST_S) * rateHz);
  const sweep = sweepPart(design, design.side, levelDbfs, sweepFrom);
  return {
    restS,
    frames: sweepFrom + sweep.frames,
    parts: [{ startFrame: 0, segment: (startS) => markerSegment(marker, markerSide, 'up', startS, markerDbfs) }, sweep],
  };
}
