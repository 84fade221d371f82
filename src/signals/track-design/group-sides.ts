// Which sides a kind's marker groups sound on: one group at either end, unless the kind says otherwise.
import type { Side } from '../track.ts';
import type { TrackDesign } from './design.ts';

/** One group on the design's marker side, none without markers. */
export function singleGroup(design: TrackDesign): { opening: Side[]; closing: Side[] } {
  const sides: Side[] = design.markerSide === 'none' ? [] : [design.markerSide];
  return { opening: sides, closing: sides };
}
