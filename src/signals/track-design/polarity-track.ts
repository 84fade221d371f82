// `polarity`: a sweep, from which polarity is read, and for the eye on an oscilloscope a train of one-sided pulses,
// then the same train upside down.
import { uniform } from '../../base/random.ts';
import type { PulsesSegment } from '../track.ts';
import type { TrackDesign } from './design.ts';
import { singleGroup } from './group-sides.ts';
import { repeated } from './repeated.ts';
import { sweepEvent } from './sweep-event.ts';
import { REST_S, type TrackEvent, type TrackScore } from './timeline.ts';

const PULSES = 8;
/** A pulse's slow opposite tail against the pulse: the train carries no steady offset. */
const TAIL_WIDTHS = 10;
/** Irregular distances tell each pulse from its echo and from the next. */
const DISTANCE_LEAST_S = 0.18;
const DISTANCE_SPREAD_S = 0.14;
/** Rest after the longest tail before the next pulse. */
const TAIL_REST_S = 0.04;
/** Fewest samples that still draw a pulse. */
const WIDTH_LEAST = 4;

/** Samples in a pulse: half a turn of the middle of the driver's band. */
export function pulseWidthSamples(design: Pick<TrackDesign, 'rateHz' | 'fromHz' | 'toHz'>): number {
  const middleHz = Math.sqrt(design.fromHz * design.toHz);
  return Math.max(WIDTH_LEAST, Math.round(design.rateHz / (2 * middleHz)));
}

/** One train; `sign` -1 turns it upside down. */
function pulseEvent(design: TrackDesign, sign: 1 | -1): TrackEvent {
  const { rateHz, side, levelDbfs, seed } = design;
  const width = pulseWidthSamples(design);
  const length = width * (1 + TAIL_WIDTHS);
  const least = Math.max(DISTANCE_LEAST_S * rateHz, length + TAIL_REST_S * rateHz);
  const starts = [0];
  for (let n = 1; n < PULSES; n++) {
    starts.push(starts[n - 1] + Math.round(least + DISTANCE_SPREAD_S * rateHz * uniform(seed, n)));
  }
  const frames = starts[PULSES - 1] + length;
  const segment = (startS: number): PulsesSegment => ({
    kind: 'pulses',
    side,
    startS,
    durationS: frames / rateHz,
    levelDbfs,
    sign,
    widthS: width / rateHz,
    tailWidthS: (width * TAIL_WIDTHS) / rateHz,
    pulseStartsS: starts.map((frame) => frame / rateHz),
  });
  return { restS: REST_S, frames, parts: [{ startFrame: 0, segment }] };
}

/** Score of a `polarity` track. */
export function polarityScore(design: TrackDesign): TrackScore {
  return {
    ...singleGroup(design),
    events: repeated(design.repeats, () => [
      sweepEvent(design, design.side),
      pulseEvent(design, 1),
      pulseEvent(design, -1),
    ]),
  };
}
