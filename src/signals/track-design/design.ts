// A track decided in every respect, before it is laid out in time.
import type { Side } from '../track.ts';
import type { TrackKind, TrackRequest } from './request.ts';

/** The chirp that marks times, in its rising form. */
export interface MarkerShape {
  fromHz: number;
  toHz: number;
  durationS: number;
  levelDbfs: number;
}

/** A request with every default filled in and every rule kept. */
export interface TrackDesign {
  kind: TrackKind;
  rateHz: number;
  fromHz: number;
  toHz: number;
  stimulusS: number;
  /** No sample of the track lies above this. */
  levelDbfs: number;
  /** Rising; empty where the kind has one level only. */
  levelsDbfs: readonly number[];
  side: Side;
  markerSide: Side | 'none';
  marker: MarkerShape;
  repeats: number;
  seed: number;
  tonesHz: readonly number[];
  relation: NonNullable<TrackRequest['relation']>;
  outputs: number;
  /** Whether a `pair` carries sweeps besides its markers. */
  pairSweeps: boolean;
  /** Whether the `bursts` go to leads whose drivers are known. */
  provenLeads: boolean;
  /** Lowest frequency of any stimulus, Hz. */
  lowestHz: number;
  code: number | undefined;
}
