// Where a track lies in a recording: by its markers if it has any and they are heard, else by its sweeps.
import type { Recording } from '../signals/recording.ts';
import type { SweepSegment, TrackDescription } from '../signals/track.ts';
import {
  type CodedGroup,
  codedGroups,
  type ExpectedMarker,
  type MarkerMatch,
  markerKinds,
  matchMarkers,
} from './marker-match.ts';
import { type ChirpKind, type ChirpPeak, chirpPeaks } from './marker-search.ts';
import { placeOfSweeps, type SweepPlace } from './sweep-search.ts';
import { type ClockFit, clockFit } from './time-base.ts';

/** What was found of the track in one channel. */
export interface Located {
  how: 'markers' | 'sweeps' | 'nothing';
  channel: number;
  /** True rate of the recording over the rate its header gives, but for clock drift: 1, 48/44.1, 2 ... */
  ratio: number;
  /** Recorded samples per track sample. */
  slope: number;
  /** Recorder sample of the track's first sample, as the markers' correlation has it. */
  offset: number;
  /** Recorded samples per second of the player's clock. */
  effectiveRateHz: number;
  driftPpm: number | null;
  driftSigmaPpm: number | null;
  /** Sound added between two plays of one sweep, negative where it was lost, s; absent where neither is known. */
  addedS?: number;
  kinds: ChirpKind[];
  markers: ExpectedMarker[];
  match: MarkerMatch;
  fit: ClockFit | null;
  /** Groups that spell a track code, whichever. */
  coded: CodedGroup[];
  sweepPlace: SweepPlace | null;
  /** How well this channel hears the track; to choose between channels. */
  score: number;
}

/** Header and true rate differ by one of these when a device lies or resamples wrongly. */
/** A coded group so clear is no chance. */
const PROVED_SCORE = 1.2;
const RATIOS = [1, 48 / 44.1, 44.1 / 48, 2, 0.5];
/** Mean score per marker that settles the search at the header's own rate. */
const SETTLED_SCORE = 0.25;

/**
 * Looks for the markers at the header's rate, then at the usual wrong rates, then for the sweeps.
 *
 * @param onProgress  share of the search done, 0 .. 1
 */
export function locateTrack(
  recording: Recording,
  channel: number,
  track: TrackDescription,
  onProgress: (share: number) => void = () => {},
): Located {
  const { kinds, markers } = markerKinds(track);
  const nothing: Located = {
    how: 'nothing',
    channel,
    ratio: 1,
    slope: recording.rateHz / track.rateHz,
    offset: 0,
    effectiveRateHz: recording.rateHz,
    driftPpm: null,
    driftSigmaPpm: null,
    kinds,
    markers,
    match: { matched: [], groupsFound: [], groupCount: 0, score: 0, displaced: [] },
    fit: null,
    coded: [],
    sweepPlace: null,
    score: 0,
  };
  let best = nothing;
  if (markers.length > 0) {
    for (const ratio of RATIOS) {
      const found = byMarkers(recording, channel, track, kinds, markers, ratio, nothing, onProgress);
      // Two chirps that happen to fit prove neither the place nor the rate.
      const proved = found.coded.some((group) => group.score > PROVED_SCORE);
      if (!proved && found.match.matched.length < markers.length / 2) continue;
      if (found.score > best.score || (best === nothing && found.coded.length > 0)) best = found;
      // Any coded group at this rate, even another track's, proves the rate.
      if (best.score >= SETTLED_SCORE * markers.length || best.coded.some((group) => group.score > PROVED_SCORE)) break;
    }
    if (best.how === 'markers') return best;
  }
  const sweeps = track.segments.filter((segment): segment is SweepSegment => segment.kind === 'sweep');
  if (sweeps.length === 0) return best;
  const place = placeOfSweeps(recording, channel, sweeps, track.rateHz, recording.rateHz, onProgress);
  onProgress(1);
  if (!place) return best;
  return {
    ...nothing,
    how: 'sweeps',
    offset: place.offset,
    sweepPlace: place,
    score: place.clearness / 1000,
    coded: best.coded,
  };
}

function byMarkers(
  recording: Recording,
  channel: number,
  track: TrackDescription,
  kinds: ChirpKind[],
  markers: ExpectedMarker[],
  ratio: number,
  nothing: Located,
  onProgress: (share: number) => void,
): Located {
  const rateHz = recording.rateHz * ratio;
  // Chirps above what was recorded cannot be looked for; of those partly inside, the search band ends with the recorder's.
  if (Math.min(...kinds.map((kind) => Math.min(kind.fromHz, kind.toHz))) > 0.4 * rateHz) return nothing;
  const peaks: ChirpPeak[][] = chirpPeaks(recording, channel, kinds, rateHz, onProgress);
  const match = matchMarkers(markers, peaks, rateHz);
  const coded: CodedGroup[] = [];
  for (let up = 0; up < kinds.length; up++) {
    const down = kinds.findIndex((kind) => kind.fromHz === kinds[up].toHz && kind.toHz === kinds[up].fromHz);
    if (kinds[up].toHz > kinds[up].fromHz && down >= 0) coded.push(...codedGroups(peaks, up, down, rateHz));
  }
  if (match.matched.length < Math.min(2, markers.length)) return { ...nothing, coded };
  const fit = clockFit(recording, channel, kinds, match.matched, rateHz);
  const nominal = rateHz / track.rateHz;
  const slope = fit.slope ?? nominal;
  const offsets = match.matched.map(({ peak, marker }) => peak.position - slope * marker.frame).sort((a, b) => a - b);
  return {
    ...nothing,
    how: 'markers',
    ratio,
    slope,
    offset: offsets[offsets.length >> 1],
    effectiveRateHz: slope * track.rateHz,
    driftPpm: fit.slope === null ? null : (slope / nominal - 1) * 1e6,
    driftSigmaPpm: fit.slopeSigma === null ? null : (fit.slopeSigma / nominal) * 1e6,
    match,
    fit,
    coded,
    score: match.score,
  };
}
