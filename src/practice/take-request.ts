// What is asked of the practice bay: a car, a track, what is un-muted, and a recorder.
import type { Side, TrackDescription } from '../signals/track.ts';
import { directTimeS, type Feed, type PlaceId, placeOf, type SimulatedCar, type SimulatedPlace } from './car.ts';
import type { RecorderSettings } from './recorder.ts';

/** An output that is not muted. `side` overrides what feeds it ('both': half of each, as a mono sum). */
export interface PlaceOn {
  place: PlaceId;
  side?: Side;
}

/** A place as it plays in one take. */
export interface PlayingPlace {
  place: SimulatedPlace;
  feed: Feed;
  /** From the file's sample to the first sound at the microphone, s. */
  directS: number;
}

/** Everything that fixes a take. */
export interface TakeRequest {
  /** What the reader is told was playing. */
  track: TrackDescription;
  /** What really played; absent: the same. */
  played?: TrackDescription;
  car: SimulatedCar;
  on: readonly (PlaceId | PlaceOn)[];
  /** What differs from a plain recorder. */
  recorder?: Partial<RecorderSettings>;
  seed: number;
  /** 'linear': small signals, quick. 'nonlinear': stroke laws, clipping and rattles, solved in time. Default linear. */
  mode?: 'linear' | 'nonlinear';
  /** Frequencies of the true response, Hz; default 48 an octave through 1 kHz over what the stimulus covers. */
  fHz?: readonly number[];
}

const MIX: Record<Side, Feed> = {
  left: { left: 1, right: 0 },
  right: { left: 0, right: 1 },
  both: { left: 0.5, right: 0.5 },
};

/** The places of a request with what feeds them. */
export function playingPlaces(request: Pick<TakeRequest, 'car' | 'on'>): PlayingPlace[] {
  return request.on.map((entry) => {
    const place = placeOf(request.car, typeof entry === 'string' ? entry : entry.place);
    const side = typeof entry === 'string' ? undefined : entry.side;
    return { place, feed: side ? MIX[side] : place.feed, directS: directTimeS(request.car, place) };
  });
}

/** How much of a segment on `side` a place plays; 'both' carries the same on each side. */
export function shareOf(playing: PlayingPlace, side: Side): number {
  const { left, right } = playing.feed;
  return side === 'left' ? left : side === 'right' ? right : left + right;
}
