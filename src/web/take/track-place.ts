// Where in a track a moment lies: which stimulus, and for a sweep which frequency.
import type { SweepSegment, TrackDescription, TrackSegment } from '../../signals/track.ts';

export interface TrackPlace {
  segment: TrackSegment | null;
  /** Which of the stimuli, counted from 0; -1 before the first. */
  stimulus: number;
  /** While a sweep plays. */
  fHz: number | null;
  /** 0 .. 1 of the whole track. */
  share: number;
}

export function stimuliOf(track: TrackDescription): TrackSegment[] {
  return track.segments.filter(({ kind }) => kind !== 'silence' && kind !== 'marker');
}

/** Frequency of an exponential sweep at a moment of its own. */
export function sweepHz({ fromHz, toHz, durationS }: SweepSegment, atS: number): number {
  return fromHz * (toHz / fromHz) ** Math.min(1, Math.max(0, atS / durationS));
}

/** @param atS seconds from the track's first sample; may lie outside */
export function trackPlace(track: TrackDescription, atS: number): TrackPlace {
  const share = Math.min(1, Math.max(0, atS / track.durationS));
  const segment = track.segments.find(({ startS, durationS }) => atS >= startS && atS < startS + durationS) ?? null;
  const stimulus = stimuliOf(track).filter(({ startS }) => startS <= atS).length - 1;
  const fHz = segment?.kind === 'sweep' ? sweepHz(segment as SweepSegment, atS - segment.startS) : null;
  return { segment, stimulus, fHz, share };
}

/** Where a moment lies on the axis that is drawn: 0 .. 1. */
export interface ProgressAxis {
  kind: 'frequency' | 'time';
  from: number;
  to: number;
}

/** Frequency where the track sweeps, else seconds. */
export function progressAxis(track: TrackDescription): ProgressAxis {
  const sweeps = track.segments.filter(({ kind }) => kind === 'sweep') as SweepSegment[];
  if (sweeps.length === 0) return { kind: 'time', from: 0, to: track.durationS };
  return {
    kind: 'frequency',
    from: Math.min(...sweeps.map(({ fromHz }) => fromHz)),
    to: Math.max(...sweeps.map(({ toHz }) => toHz)),
  };
}

/** Share of the axis that is behind at a moment; null while nothing of it plays. */
export function progressShare(axis: ProgressAxis, place: TrackPlace, atS: number): number | null {
  if (axis.kind === 'time') return Math.min(1, Math.max(0, atS / axis.to));
  if (place.fHz === null) return null;
  return Math.log(place.fHz / axis.from) / Math.log(axis.to / axis.from);
}
