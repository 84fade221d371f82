// The track laid over the recording: where each event falls, and where the track is silent.
import type { TrackDescription, TrackSegment } from '../signals/track.ts';
import type { Located } from './locate-track.ts';
import type { Stretch } from './noise-density.ts';

export interface TimedEvent {
  segment: TrackSegment;
  /** Recorder samples, fractional. */
  start: number;
  end: number;
}

/** Time the car goes on sounding after an event, s. */
export const DECAY_S = 0.35;

/** All segments that make sound, in order, in recorder samples. */
export function timedEvents(track: TrackDescription, located: Pick<Located, 'slope' | 'offset'>): TimedEvent[] {
  return track.segments
    .filter((segment) => segment.kind !== 'silence')
    .map((segment) => {
      const first = Math.round(segment.startS * track.rateHz);
      return {
        segment,
        start: located.slope * first + located.offset,
        end: located.slope * (first + segment.durationS * track.rateHz) + located.offset,
      };
    })
    .sort((a, b) => a.start - b.start);
}

export interface QuietStretches {
  /** Before the first event. */
  before: Stretch | null;
  /** Between events, after the decay. */
  between: Stretch[];
  /** After the last event. */
  after: Stretch | null;
}

/** Stretches of the recording in which nothing plays and the car has died away. */
export function quietStretches(events: TimedEvent[], frames: number, rateHz: number): QuietStretches {
  const decay = Math.round(DECAY_S * rateHz);
  const guard = Math.round(0.03 * rateHz);
  const stretch = (from: number, to: number): Stretch | null => {
    const start = Math.max(0, Math.ceil(from));
    const end = Math.min(frames, Math.floor(to));
    return end - start >= 0.05 * rateHz ? { start, length: end - start } : null;
  };
  if (events.length === 0) return { before: stretch(0, frames), between: [], after: null };
  const between: Stretch[] = [];
  let until = events[0].end;
  for (const event of events.slice(1)) {
    const quiet = stretch(until + decay, event.start - guard);
    if (quiet) between.push(quiet);
    until = Math.max(until, event.end);
  }
  return { before: stretch(0, events[0].start - guard), between, after: stretch(until + decay, frames) };
}

/** Sound between an event's end and whatever follows, `mostS` at most, as far as the recording goes, s; 50 ms at least. */
export function tailOf(
  event: TimedEvent,
  events: readonly TimedEvent[],
  frames: number,
  rateHz: number,
  mostS: number,
): number {
  const next = events.find((other) => other.start >= event.end - 1);
  const until = Math.min(next ? next.start : Number.POSITIVE_INFINITY, frames);
  return Math.max(0.05, Math.min(mostS, (until - event.end) / rateHz - 0.002));
}
