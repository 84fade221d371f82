// What a person may ask of a test track, and what each kind of track is.
import type { Side } from '../track.ts';

export const trackKinds = ['sweep', 'steps', 'noise', 'near', 'pair', 'polarity', 'tone', 'ladder', 'bursts'] as const;

export type TrackKind = (typeof trackKinds)[number];

/** How the two sides of a noise go together. */
export const noiseRelations = ['same', 'opposite', 'independent'] as const;

export type NoiseRelation = (typeof noiseRelations)[number];

/** What may be wished for: `both` plays the same noise on both sides first, then opposite. */
export const relationWishes = [...noiseRelations, 'both'] as const;

type RelationWish = (typeof relationWishes)[number];

/** A wish for a track. Everything but kind and rate has a default that suits the kind. */
export interface TrackRequest {
  kind: TrackKind;
  /** One of `trackRatesHz`. */
  rateHz: number;
  /** Band of the stimulus, Hz. */
  fromHz?: number | undefined;
  toHz?: number | undefined;
  /** Length of one stimulus, s. */
  stimulusS?: number | undefined;
  /** The highest peak anywhere in the track, dB re full scale. */
  levelDbfs?: number | undefined;
  /** Levels one after the other, rising: `steps`, `ladder`. */
  levelsDbfs?: readonly number[] | undefined;
  side?: Side | undefined;
  markerSide?: Side | 'none' | undefined;
  /** Band of the markers, Hz. */
  markerBandHz?: { from: number; to: number } | undefined;
  /** How often each stimulus plays. */
  repeats?: number | undefined;
  /** Chooses the noise and the irregular distances, 0 .. 2^32 - 1. */
  seed?: number | undefined;
  /** Frequencies of `tone` and `ladder`; the middle of each output's band in `bursts`. */
  tonesHz?: readonly number[] | undefined;
  relation?: RelationWish | undefined;
  /** Processor outputs that `bursts` counts through. */
  outputs?: number | undefined;
  /** Track code, 0 .. 255; by default it follows from all the rest. */
  code?: number | undefined;
}

/** Sample rates that players take and that hold the highest marker frequency. */
export const trackRatesHz = [32_000, 44_100, 48_000, 88_200, 96_000, 176_400, 192_000] as const;

/** A field that only some kinds know. */
export type KindField = 'fromHz' | 'toHz' | 'levelsDbfs' | 'tonesHz' | 'relation' | 'outputs';

interface KindTraits {
  /** Highest sample peak allowed, dBFS: reconstruction between samples and noise need room above it, a sine does not. */
  ceilingDbfs: number;
  takes: readonly KindField[];
}

const band = ['fromHz', 'toHz'] as const;

/** What sets the kinds apart before their stimuli do. */
export const kindTraits: Record<TrackKind, KindTraits> = {
  sweep: { ceilingDbfs: -1, takes: band },
  steps: { ceilingDbfs: -1, takes: [...band, 'levelsDbfs'] },
  noise: { ceilingDbfs: -3, takes: [...band, 'relation'] },
  near: { ceilingDbfs: -1, takes: band },
  pair: { ceilingDbfs: -1, takes: band },
  polarity: { ceilingDbfs: -1, takes: band },
  tone: { ceilingDbfs: 0, takes: ['tonesHz'] },
  ladder: { ceilingDbfs: 0, takes: ['tonesHz', 'levelsDbfs'] },
  bursts: { ceilingDbfs: -3, takes: ['tonesHz', 'outputs'] },
};
