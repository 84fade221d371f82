// Groups of three chirps: the landmarks of a track, with the track code in their gaps.
import type { MarkerSegment, Side } from '../track.ts';
import type { MarkerShape } from './design.ts';

/** A rising chirp starts the file's groups, a falling one its end, so that a recording cut off is not mistaken. */
export type GroupForm = 'start' | 'end';

/**
 * Seconds between the starts of the three chirps of a group, which spell `code`: 150 ms and 5 ms for each of 16 values.
 *
 * @param code 0 .. 255
 */
export function codeGapsS(code: number): [number, number] {
  return [0.15 + 0.005 * (code % 16), 0.15 + 0.005 * Math.floor(code / 16)];
}

/** Side of the markers when nothing is said: the one a one-sided stimulus leaves free. */
export function usualMarkerSide(side: Side): Side {
  return side === 'both' ? 'both' : side === 'left' ? 'right' : 'left';
}

/** One marker segment at `startS`. */
export function markerSegment(
  shape: MarkerShape,
  side: Side,
  direction: 'up' | 'down',
  startS: number,
  levelDbfs = shape.levelDbfs,
): MarkerSegment {
  const [fromHz, toHz] = direction === 'up' ? [shape.fromHz, shape.toHz] : [shape.toHz, shape.fromHz];
  return { kind: 'marker', side, startS, durationS: shape.durationS, fromHz, toHz, levelDbfs };
}

/** A group from sample `startFrame` on, and the sample after its last. */
export function markerGroup(
  shape: MarkerShape,
  side: Side,
  form: GroupForm,
  code: number,
  startFrame: number,
  rateHz: number,
): { segments: MarkerSegment[]; endFrame: number } {
  const [firstS, secondS] = codeGapsS(code);
  const second = startFrame + Math.round(firstS * rateHz);
  const third = second + Math.round(secondS * rateHz);
  const outer = form === 'start' ? 'up' : 'down';
  const inner = form === 'start' ? 'down' : 'up';
  const starts = [startFrame, second, third];
  return {
    segments: starts.map((frame, index) => markerSegment(shape, side, index === 1 ? inner : outer, frame / rateHz)),
    endFrame: third + Math.round(shape.durationS * rateHz),
  };
}
