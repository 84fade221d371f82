// The track code: eight bits by which a recording tells which track it heard.
import { hash32 } from '../../base/random.ts';
import type { TrackDesign } from './design.ts';
import { usualMarkerSide } from './markers.ts';

/** Keeps the left, right and two-sided form of one design a third of the codes apart. */
const sideOffset = { left: 0, right: 85, both: 170 } as const;

/**
 * Code of a design, 0 .. 255.
 *
 * A hash of the whole design, so that different tracks of a job nearly always differ (255 of 256 pairs); the three
 * sides of one design always do, for those are the tracks most easily confused.
 *
 * Source: the folding is FNV-1a (G. Fowler, L. C. Noll, K.-P. Vo), whose low bits `hash32` then mixes.
 */
export function trackCode(design: TrackDesign): number {
  const { side, markerSide, code: _asked, ...rest } = design;
  const markers = markerSide === usualMarkerSide(side) ? 'usual' : markerSide === side ? 'same' : markerSide;
  const text = JSON.stringify({ ...rest, markers }, (_key, value) =>
    typeof value === 'object' && value !== null && !Array.isArray(value) ? Object.entries(value).sort() : value,
  );
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash32(hash >>> 0, 0) + sideOffset[side]) & 255;
}
