// The order in time: silence, marker groups, stimuli with rests between them, silence.
import { failure, type Result, success } from '../../base/result.ts';
import type { Side, TrackDescription, TrackSegment } from '../track.ts';
import type { TrackDesign } from './design.ts';
import { markerGroup } from './markers.ts';

/** Something that may not be interrupted: one stimulus, or a marker and its stimulus. */
export interface TrackEvent {
  /** Silence before it when another event precedes it, s. */
  restS: number;
  frames: number;
  parts: EventPart[];
}

/** A segment, complete but for its place. */
export interface EventPart {
  /** First sample, after the event's first. */
  startFrame: number;
  segment: (startS: number) => TrackSegment;
}

/** What a kind of track plays. */
export interface TrackScore {
  events: TrackEvent[];
  /** Sides of the marker groups at the start (and in the middle of a long track), in order. */
  opening: Side[];
  closing: Side[];
}

/** Outlasts a car's decay, so that neither a marker nor a stimulus rings into its neighbour. */
export const GAP_S = 0.7;
/** Between events: a car's decay and the lead of the harmonics of the next sweep. */
export const REST_S = 1;
/** Between the markers of the left and of the right side. */
const GROUP_REST_S = 0.5;
/** Keeps the first marker out of the stretch in which background noise is measured. */
const GUARD_S = 0.2;
const TAIL_S = 1;
/** Background noise needs this long to be measured; more where it is low. */
const PREROLL_S = 1;
const PREROLL_LOW_S = 2;
const PREROLL_LOW_BELOW_HZ = 40;
/** A track longer than this carries marker groups in its middle, so that a lost buffer is seen where it happened. */
const LONG_TRACK_S = 60;
const GROUP_EVERY_S = 30;
/** The longest track made, s. */
export const TRACK_MAX_S = 1800;

/**
 * The track of a design: its score laid out on whole samples.
 *
 * Marker groups of a track longer than a minute start at most 30 s apart, as far as single events are shorter than that.
 *
 * @returns the description, or the issue that the track would be longer than half an hour
 */
export function layOut(design: TrackDesign, score: TrackScore, code: number): Result<TrackDescription> {
  const track = placed(design, score, code, false);
  if (!track.ok || track.value.durationS <= LONG_TRACK_S || design.markerSide === 'none') return track;
  return placed(design, score, code, true);
}

function placed(design: TrackDesign, score: TrackScore, code: number, middle: boolean): Result<TrackDescription> {
  const { rateHz } = design;
  const framesOf = (seconds: number): number => Math.round(seconds * rateHz);
  const marked = design.markerSide !== 'none';
  const prerollS = design.lowestHz < PREROLL_LOW_BELOW_HZ ? PREROLL_LOW_S : PREROLL_S;
  const segments: TrackSegment[] = [{ kind: 'silence', startS: 0, durationS: prerollS }];
  let cursor = framesOf(prerollS) + framesOf(marked ? GUARD_S : GROUP_REST_S);
  let lastGroup = cursor;
  const placeGroups = (sides: Side[], form: 'start' | 'end'): void => {
    sides.forEach((side, index) => {
      if (index > 0) cursor += framesOf(GROUP_REST_S);
      if (index === 0) lastGroup = cursor;
      const group = markerGroup(design.marker, side, form, code, cursor, rateHz);
      segments.push(...group.segments);
      cursor = group.endFrame;
    });
  };
  if (marked) placeGroups(score.opening, 'start');
  for (const [index, event] of score.events.entries()) {
    const rest = framesOf(event.restS);
    if (index === 0) cursor += marked ? framesOf(GAP_S) : 0;
    else if (middle && cursor + rest + event.frames + framesOf(GAP_S) - lastGroup > framesOf(GROUP_EVERY_S)) {
      const before = cursor;
      cursor += framesOf(GAP_S);
      placeGroups(score.opening, 'start');
      cursor = Math.max(cursor + framesOf(GAP_S), before + rest);
    } else cursor += rest;
    for (const part of event.parts) segments.push(part.segment((cursor + part.startFrame) / rateHz));
    cursor += event.frames;
    if (cursor > TRACK_MAX_S * rateHz) break;
  }
  if (marked) {
    cursor += framesOf(GAP_S);
    placeGroups(score.closing, 'end');
  }
  cursor += framesOf(TAIL_S);
  if (cursor > TRACK_MAX_S * rateHz) {
    return failure({
      code: 'track-too-long',
      message: `The track would be longer than ${TRACK_MAX_S / 60} minutes.`,
      where: 'stimulusS',
      mend: 'Ask for fewer or shorter stimuli, or split the work over several tracks.',
    });
  }
  return success({
    schema: 'kickpanel.track/1',
    kind: design.kind,
    rateHz,
    channels: 2,
    durationS: cursor / rateHz,
    segments,
    ...(marked ? { code } : {}),
  });
}
