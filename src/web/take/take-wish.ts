// What a person chooses for a take, and what follows from it: the track, its name, what to mind.

import type { Issue, Result } from '../../base/result.ts';
import type { Side, TrackDescription } from '../../signals/track.ts';
import { trackCautions } from '../../signals/track-design/cautions.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import type { TrackRequest } from '../../signals/track-design/request.ts';

export type TakeKind = 'sweep' | 'noise' | 'pair' | 'polarity' | 'near';

export const takeKinds: { value: TakeKind; label: string; small: string }[] = [
  { value: 'sweep', label: 'Sweep', small: 'response, distortion' },
  { value: 'polarity', label: 'Polarity', small: 'pushes or pulls' },
  { value: 'pair', label: 'Pair', small: 'left against right' },
  { value: 'noise', label: 'Noise', small: 'bands along a path' },
  { value: 'near', label: 'Near walk', small: 'close to one cone' },
];

export type RangeName = 'whole' | 'low' | 'middle' | 'high';

export const ranges: Record<RangeName, { label: string; fromHz: number; toHz: number }> = {
  whole: { label: 'Everything', fromHz: 20, toHz: 20_000 },
  low: { label: 'Sub', fromHz: 20, toHz: 500 },
  middle: { label: 'Door or mid', fromHz: 40, toHz: 8000 },
  high: { label: 'Tweeter', fromHz: 1500, toHz: 20_000 },
};

export interface TakeWish {
  kind: TakeKind;
  side: Side;
  range: RangeName;
  levelDbfs: number;
  /** Where the driver sits, or what plays. */
  place: string;
}

export const allTogether = 'All together';

/** Until a place has been heard once it starts quietly: nobody has proven yet what its lead ends on. */
export function firstLevelDbfs(heardBefore: boolean): number {
  return heardBefore ? -20 : -30;
}

/** Which range suits a place by its name. */
export function rangeFor(place: string): RangeName {
  const name = place.toLowerCase();
  if (name.includes('dash top') || name.includes('tweeter')) return 'high';
  if (/boot|under the|behind the|sub/.test(name)) return 'low';
  if (name.includes('door') || name.includes('quarter') || name.includes('bulkhead')) return 'middle';
  return 'whole';
}

/** Which side of the file reaches a place by its name. */
export function sideFor(place: string): Side {
  const name = place.toLowerCase();
  if (/\bleft\b/.test(name)) return 'left';
  if (/\bright\b/.test(name)) return 'right';
  return 'both';
}

const playRateHz = 48_000;

export function trackRequest({ kind, side, range, levelDbfs }: TakeWish): TrackRequest {
  const { fromHz, toHz } = ranges[range];
  const request: TrackRequest = { kind, rateHz: playRateHz, levelDbfs };
  // Whatever place it is heard at, everything plays all of it.
  if (kind === 'near') return request;
  // A pair plays both sides in turn, whatever side was looked at.
  const sided: TrackRequest = kind === 'pair' ? request : { ...request, side };
  return kind === 'polarity' ? sided : { ...sided, fromHz, toHz };
}

export interface DesignedTake {
  track: TrackDescription;
  cautions: string[];
}

export function designedTake(wish: TakeWish): Result<DesignedTake> {
  const request = trackRequest(wish);
  const track = designTrack(request);
  if (!track.ok) return track;
  return {
    ok: true,
    value: { track: track.value, cautions: trackCautions(request, track.value).map(({ message }) => message) },
  };
}

export const issueText = ({ message, mend }: Issue): string => (mend ? `${message} ${mend}` : message);

const kindWords: Record<string, string> = {
  sweep: 'sweep',
  noise: 'pink noise',
  pair: 'pair',
  polarity: 'polarity',
  steps: 'rising sweeps',
  near: 'near walk',
  tone: 'tone',
  ladder: 'steps of a tone',
  bursts: 'bursts',
};

/** `sweep, left`, `pink noise, both sides` */
export function trackWords(track: Pick<TrackDescription, 'kind' | 'segments'>): string {
  const kind = kindWords[track.kind] ?? track.kind;
  const sides = new Set(
    track.segments
      .filter(({ kind: segment }) => segment !== 'silence' && segment !== 'marker')
      .map((segment) => (segment as { side?: Side }).side ?? 'both'),
  );
  const [side] = sides;
  if (sides.size > 1) return `${kind}, sides in turn`;
  return side === undefined || side === 'both' ? `${kind}, both sides` : `${kind}, ${side}`;
}
