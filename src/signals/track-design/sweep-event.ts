// The sweep of a design as an event of its score; every kind that sweeps builds on it.
import { sweepConstantS, sweepFrames, synchronisedDurationS } from '../sweep.ts';
import type { Side, SweepSegment } from '../track.ts';
import type { TrackDesign } from './design.ts';
import { type EventPart, REST_S, type TrackEvent } from './timeline.ts';

/** Octaves over which a sweep swells and dies away. */
const FADE_IN_OCTAVES = 1 / 6;
const FADE_OUT_OCTAVES = 1 / 12;
/** No event starts or ends faster, s. */
const RAMP_LEAST_S = 0.005;

/**
 * The sweep of `design` on one side, starting with sample `startFrame` of its event.
 *
 * Its length is the one nearest to the wish at which harmonics are exact copies of the sweep.
 */
export function sweepPart(
  design: Pick<TrackDesign, 'rateHz' | 'fromHz' | 'toHz' | 'stimulusS'>,
  side: Side,
  levelDbfs: number,
  startFrame = 0,
): EventPart & { frames: number } {
  const { fromHz, toHz, rateHz } = design;
  const durationS = synchronisedDurationS(fromHz, toHz, design.stimulusS);
  const octaveS = sweepConstantS({ durationS, fromHz, toHz }) * Math.LN2;
  const fadeInS = Math.max(octaveS * FADE_IN_OCTAVES, RAMP_LEAST_S);
  const fadeOutS = Math.max(octaveS * FADE_OUT_OCTAVES, RAMP_LEAST_S);
  return {
    startFrame,
    frames: sweepFrames(durationS, rateHz),
    segment: (startS): SweepSegment => ({
      kind: 'sweep',
      side,
      startS,
      durationS,
      fromHz,
      toHz,
      levelDbfs,
      fadeInS,
      fadeOutS,
    }),
  };
}

/** A sweep alone as an event. */
export function sweepEvent(design: TrackDesign, side: Side, levelDbfs = design.levelDbfs): TrackEvent {
  const part = sweepPart(design, side, levelDbfs);
  return { restS: REST_S, frames: part.frames, parts: [part] };
}
