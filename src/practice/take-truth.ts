// What is true of a take, computed from formulas and not from its samples.
import type { Side } from '../signals/track.ts';
import { nominalBand, type PlaceId } from './car.ts';
import { magnitude } from './complex.ts';
import type { Crossover } from './crossover.ts';
import { placeResponse } from './path.ts';
import type { RecorderSettings } from './recorder.ts';
import { middleHz, type SidedSegment, sidedSegments } from './sided-segments.ts';
import type { StimulusOnTest } from './signal-to-noise.ts';
import { type PlayingPlace, shareOf, type TakeRequest } from './take-request.ts';
import { gridOf, type SideImpulses, type TrueResponse, totalResponse } from './true-response.ts';

/** What is true of one stimulus of the track. */
export interface StimulusTruth {
  /** Index of the segment in the description of what played. */
  segment: number;
  kind: string;
  side: Side;
  levelDbfs: number;
  /** Places that play it. */
  places: PlaceId[];
  /** Direct sound after that of the anchor, s on the track's clock; null without an anchor or with several places. */
  arrivalS: number | null;
  /** First direct sound of all that plays it after the time reference's, s; what the response's phase leaves out. */
  firstDirectS: number | null;
  /** Of the whole path from file to recording; 0 when several places play. */
  polaritySign: 1 | -1 | 0;
  /** Recorded full scale per played full scale, small signal; the first direct sound's arrival is removed. */
  response: TrueResponse;
  /** Of the one place that plays. */
  crossover: Crossover | null;
  /** Between the corners of all places that play, Hz. */
  bandHz: { lowHz: number; highHz: number };
}

/** What is true of a take. */
export interface TakeTruth {
  driftPpm: number;
  startS: number;
  /** Place heard as the time reference: the one that plays the markers, else the first stimulus. Null: nothing is heard. */
  anchor: PlaceId | null;
  hasMarkers: boolean;
  stimuli: StimulusTruth[];
  /** Left reference driver after the right one, where the track has markers on each side alone; else null. */
  leftMinusRightS: number | null;
  /** Rms of the stationary noise in the recording, dB re a full-scale square. */
  noiseLevelDb: number;
}

/** The place that is heard loudest when this segment plays. */
function loudest(
  request: TakeRequest,
  playing: readonly PlayingPlace[],
  segment: SidedSegment,
  rateHz: number,
): PlayingPlace | null {
  let best: PlayingPlace | null = null;
  let most = 0;
  for (const candidate of playing) {
    const gain = shareOf(candidate, segment.side);
    if (gain === 0) continue;
    const [response] = placeResponse(request.car, candidate.place, [middleHz(segment)], rateHz);
    const level = Math.abs(gain) * magnitude(response);
    if (level > most) {
      most = level;
      best = candidate;
    }
  }
  return best;
}

function bandOf(heard: readonly PlayingPlace[]): { lowHz: number; highHz: number } {
  const bands = heard.map(({ place }) => nominalBand(place));
  if (bands.length === 0) return { lowHz: 20, highHz: 20_000 };
  return {
    lowHz: Math.min(...bands.map(({ lowHz }) => lowHz)),
    highHz: Math.max(...bands.map(({ highHz }) => highHz)),
  };
}

function pairDifferenceS(
  request: TakeRequest,
  playing: readonly PlayingPlace[],
  markers: readonly SidedSegment[],
  rateHz: number,
): number | null {
  const left = markers.find(({ side }) => side === 'left');
  const right = markers.find(({ side }) => side === 'right');
  if (!left || !right) return null;
  const heardLeft = loudest(request, playing, left, rateHz);
  const heardRight = loudest(request, playing, right, rateHz);
  return heardLeft && heardRight ? heardLeft.directS - heardRight.directS : null;
}

/**
 * Truth of a take, the flight of the time reference, and the stimulus a signal-to-noise ratio speaks of.
 *
 * The recorder's noise level is filled in by the renderer, which knows it only once the sound is there.
 */
export function truthOfTake(
  request: TakeRequest,
  playing: readonly PlayingPlace[],
  recorder: RecorderSettings,
  impulses: SideImpulses,
): { truth: TakeTruth; referenceS: number; test: StimulusOnTest | null } {
  const track = request.played ?? request.track;
  const { rateHz } = track;
  const sided = sidedSegments(track);
  const markers = sided.filter(({ segment }) => segment.kind === 'marker').map(({ segment }) => segment);
  const first = markers[0] ?? sided[0]?.segment;
  const anchor = first ? loudest(request, playing, first, rateHz) : null;
  let test: StimulusOnTest | null = null;
  // A rising-level track plays one sweep many times: its response is worked out once.
  const known = new Map<string, TrueResponse>();
  const responseOf = (heard: readonly PlayingPlace[], segment: SidedSegment): TrueResponse => {
    const { side, fromHz, toHz, fHz } = segment;
    const key = JSON.stringify([side, fromHz, toHz, fHz]);
    const response =
      known.get(key) ??
      totalResponse(request, heard, side, recorder, gridOf(request, segment, recorder, rateHz), rateHz, impulses);
    known.set(key, response);
    return response;
  };
  const stimuli = sided
    .filter(({ segment }) => segment.kind !== 'marker')
    .map(({ index, segment }): StimulusTruth => {
      const heard = playing.filter((one) => shareOf(one, segment.side) !== 0);
      const only = heard.length === 1 ? heard[0] : null;
      const main = only ?? loudest(request, heard, segment, rateHz);
      if (main && !test) test = { place: main.place, startS: segment.startS, durationS: segment.durationS };
      const sign = only
        ? only.place.wiringSign * only.place.processorSign * recorder.sign * Math.sign(shareOf(only, segment.side))
        : 0;
      return {
        segment: index,
        kind: segment.kind,
        side: segment.side,
        levelDbfs: segment.levelDbfs,
        places: heard.map(({ place }) => place.id),
        arrivalS: only && anchor && markers.length > 0 ? only.directS - anchor.directS : null,
        firstDirectS:
          anchor && heard.length > 0 ? Math.min(...heard.map(({ directS }) => directS)) - anchor.directS : null,
        polaritySign: sign as 1 | -1 | 0,
        response: responseOf(heard, segment),
        crossover: only ? only.place.crossover : null,
        bandHz: bandOf(heard),
      };
    });
  const truth: TakeTruth = {
    driftPpm: recorder.driftPpm,
    startS: recorder.startS,
    anchor: anchor?.place.id ?? null,
    hasMarkers: markers.length > 0,
    stimuli,
    leftMinusRightS: pairDifferenceS(request, playing, markers, rateHz),
    noiseLevelDb: recorder.noise.levelDb,
  };
  return { truth, referenceS: anchor?.directS ?? 0, test };
}
