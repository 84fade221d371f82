// What holds when nothing is said: band, length, level and markers that suit the kind of track.
import type { Side } from '../track.ts';
import type { MarkerShape } from './design.ts';
import type { TrackKind, TrackRequest } from './request.ts';

export const LEVEL_DBFS = -20;
/** First sound into leads that nobody has proven yet: any of them may end on a tweeter. */
export const UNPROVEN_LEVEL_DBFS = -30;
/** Middle of a band that no driver is harmed by and every tweeter, mid and small coaxial speaks. */
export const UNPROVEN_CENTRE_HZ = 2000;

/** Highest frequency that any stimulus may reach, Hz: the reconstruction filters of player and recorder lie above it. */
export function highestHz(rateHz: number): number {
  return 0.45 * rateHz;
}

/** The audible band, as far as the rate carries it. */
export function wholeBandHz(rateHz: number): { from: number; to: number } {
  return { from: 20, to: Math.min(20_000, highestHz(rateHz)) };
}

/**
 * Length of a sweep over a band, s: long where noise is strong and octaves are slow, short where a tweeter would heat.
 *
 * Full range and sub 6, midbass 4, mid 3, tweeter 2.
 */
export function sweepS(fromHz: number, toHz: number): number {
  if (fromHz < 40 || toHz / fromHz > 300) return 6;
  if (fromHz < 150) return 4;
  return fromHz < 800 ? 3 : 2;
}

/** Bins that a band of noise holds at least. */
const NOISE_BINS_LEAST = 16;

/** Samples in the usual period of noise: the power of two next above 2.7 s; bins lie 0.37 Hz apart at every rate. */
export function usualNoisePeriod(rateHz: number): number {
  return 2 ** Math.ceil(Math.log2(2.7 * rateHz));
}

/**
 * Samples in one period of noise that plays `steadyFrames` at full level: the usual period, or the longest power of two
 * that fits whole, so that its highest peak is heard; but never so short that the band holds hardly a bin.
 */
export function noisePeriodSamples(rateHz: number, steadyFrames: number, band: { from: number; to: number }): number {
  const least = 2 ** Math.ceil(Math.log2((NOISE_BINS_LEAST * rateHz) / (band.to - band.from)));
  const fitting = 2 ** Math.floor(Math.log2(Math.max(steadyFrames, 1)));
  return Math.max(least, Math.min(fitting, usualNoisePeriod(rateHz)));
}

/** Length of one stimulus, s. */
export function stimulusS(kind: TrackKind, rateHz: number, band: { from: number; to: number }): number {
  if (kind === 'tone') return 20;
  if (kind === 'ladder') return 2;
  if (kind === 'bursts') return 0.8;
  if (kind === 'noise') return (4 * usualNoisePeriod(rateHz)) / rateHz;
  return sweepS(band.from, band.to);
}

/** Levels of a stepped series against its highest, dB: coarse where little happens, fine near the top. */
const STEP_OFFSETS_DB = [-24, -20, -16, -12, -9, -6, -3, 0];

/** Levels of a stepped series that ends at `topDbfs`. */
export function stepLevelsDbfs(topDbfs: number): number[] {
  return STEP_OFFSETS_DB.map((offset) => topDbfs + offset);
}

/** Markers that a tweeter plays, and those that a mid plays: the narrower band needs more time for the same sharpness. */
const TWEETER_MARKER = { fromHz: 4000, toHz: 12_000, durationS: 0.08 };
const MID_MARKER = { fromHz: 500, toHz: 3000, durationS: 0.12 };
const MARKER_LEVEL_DBFS = -18;

/**
 * Shape of the markers. When the stimulus's own driver must play them (same side) and ends below their usual band, they
 * move into its band. They never rise above the track's level, and in a stepped series stay near its quiet end.
 */
export function markerShape(
  request: TrackRequest,
  design: { fromHz: number; toHz: number; side: Side; markerSide: Side | 'none'; levelDbfs: number },
  levelsDbfs: readonly number[],
): MarkerShape {
  const asked = request.markerBandHz;
  const quietEnd = request.kind === 'steps' ? (levelsDbfs[0] ?? 0) + 12 : 0;
  const levelDbfs = Math.min(MARKER_LEVEL_DBFS, quietEnd, design.levelDbfs);
  if (asked !== undefined) {
    const durationS = asked.from >= 2000 ? TWEETER_MARKER.durationS : MID_MARKER.durationS;
    return { fromHz: asked.from, toHz: asked.to, durationS, levelDbfs };
  }
  const ownDriver = request.kind === 'pair' || (design.side !== 'both' && design.side === design.markerSide);
  const inBand = design.fromHz <= MID_MARKER.fromHz && design.toHz >= MID_MARKER.toHz;
  const mid = ownDriver && inBand && design.toHz < TWEETER_MARKER.toHz;
  return { ...(mid ? MID_MARKER : TWEETER_MARKER), levelDbfs };
}
