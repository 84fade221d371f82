// Near-field takes of a simulated car with planted faults, one a driver, and the truth about them.
import type { TrackDescription } from '../../signals/track.ts';
import { ambientNoise } from '../ambient-noise.ts';
import type { ReflectionKind } from '../car-cabin.ts';
import { chanceFrom, seedFor } from '../chance.ts';
import { addConvolved } from '../convolution.ts';
import { resampled } from '../interpolation.ts';
import { PLAIN_RECORDER, quantised, type RecorderSettings } from '../recorder.ts';
import { withEffect } from '../recorder-effects.ts';
import { SIDE_ZERO } from '../take-impulse.ts';
import { type TrackAudio, trackAudio } from '../track-audio.ts';
import { type NearCar, type NearOutput, nearCar } from './near-car.ts';
import { nearImpulses, type Source, sourcesOf, spotBefore } from './near-impulse.ts';
import { feedsOf, type PlaceFeed, plantedFaults } from './wiring-faults.ts';

/** The form of a plan that a near-field walk takes. */
export interface NearPlanFile {
  outputs: NearOutput[];
  reversibleInputs: boolean;
}

/** What is true of a walk. */
export interface NearTruth {
  seed: number;
  faults: string[];
  /** What really feeds each place; `output` null: silent. `left`, `right`: signed share of each side. */
  places: { place: string; output: string | null; left: number; right: number }[];
  recorderSign: 1 | -1;
}

export interface NearWalk {
  near: NearCar;
  plan: NearPlanFile;
  truth: NearTruth;
  feeds: PlaceFeed[];
}

/** A car with its plan and `faults` planted faults, from one number; `faults` may also be given by name. */
export function nearWalk(seed: number, faults: number | readonly string[]): NearWalk {
  const near = nearCar(seed);
  const planted = typeof faults === 'number' ? plantedFaults(near, faults, seed) : [...faults].sort();
  const feeds = feedsOf(near, planted);
  return {
    near,
    plan: { outputs: near.places.map(({ output }) => output), reversibleInputs: near.reversibleInputs },
    truth: {
      seed,
      faults: planted,
      places: feeds.map(({ place, output, left, right }) => ({ place, output: output?.id ?? null, left, right })),
      recorderSign: 1,
    },
    feeds,
  };
}

export interface NearTakeRequest {
  walk: NearWalk;
  track: TrackDescription;
  /** Places to hold the microphone to; all when absent. */
  places?: readonly string[];
  /** What differs from a recorder turned down far enough; `snrDb` is not used here: see `snrDb` below. */
  recorder?: Partial<RecorderSettings>;
  /**
   * Mean power of a driver's own sweep over the background where both are loudest, dB; taken at the median place and
   * kept for all takes, as one room has one background. Null: the recorder's own noise level.
   */
  snrDb?: number | null;
  reflections?: ReflectionKind;
}

export interface NearTake {
  place: string;
  samples: Float64Array;
  rateHz: number;
  bits: 16 | 24 | 32;
}

const AFTER_TRACK_S = 0.6;
/** Peak that the loudest of all takes reaches, dBFS: one recorder level for the whole walk. */
const LOUDEST_DBFS = -9;

/** The sound at one microphone spot on the track's clock. */
function soundAt(request: NearTakeRequest, audio: TrackAudio, sources: readonly Source[], place: string): Float64Array {
  const { walk, track, reflections } = request;
  const chance = chanceFrom(walk.near.seed).stream(`microphone at ${place}`);
  const spot = { ...spotBefore(walk.near, place, chance.between(0.033, 0.047)), place };
  const impulses = nearImpulses(walk.near, sources, spot, track.rateHz, reflections);
  const sound = new Float64Array(audio.left.length + Math.ceil(AFTER_TRACK_S * track.rateHz));
  addConvolved(sound, audio.left, impulses.left, -SIDE_ZERO);
  addConvolved(sound, audio.right, impulses.right, -SIDE_ZERO);
  return sound;
}

function largest(signal: Float64Array): number {
  let most = 1e-12;
  for (const value of signal) most = Math.max(most, Math.abs(value));
  return most;
}

/** Mean power of the louder of the two halves of a take, a sweep's length each. */
function sweepPower(sound: Float64Array, { segments, rateHz }: TrackDescription): number {
  const sweeps = segments.filter(({ kind }) => kind === 'sweep');
  return Math.max(
    1e-24,
    ...sweeps.map(({ startS, durationS }) => {
      const from = Math.round(startS * rateHz);
      const part = sound.subarray(from, from + Math.round(durationS * rateHz));
      return part.reduce((sum, value) => sum + value * value, 0) / Math.max(1, part.length);
    }),
  );
}

/**
 * One take a place.
 *
 * Clock, start and noise differ from take to take; the recorder's level is one for all.
 *
 * @returns in the order of `places`; the same request gives the same samples
 */
export function renderNearTakes(request: NearTakeRequest): NearTake[] {
  const { walk, track, snrDb = null } = request;
  const recorder = { ...PLAIN_RECORDER, ...request.recorder };
  const audio = trackAudio(track);
  const sources = sourcesOf(walk.near, walk.feeds, track.rateHz);
  const all = walk.near.places.map(({ output }) => output.place);
  const sounds = new Map(all.map((place) => [place, soundAt(request, audio, sources, place)]));
  const gain =
    10 ** ((LOUDEST_DBFS + recorder.gainDb) / 20) / Math.max(...[...sounds.values()].map((sound) => largest(sound)));
  const powers = [...sounds.values()].map((sound) => sweepPower(sound, track)).sort((a, b) => a - b);
  const noiseDb =
    snrDb === null ? recorder.noise.levelDb : 10 * Math.log10(powers[powers.length >> 1] * gain * gain) - snrDb;
  return (request.places ?? all).map((place): NearTake => {
    const seed = seedFor(walk.near.seed, `take at ${place}`);
    const chance = chanceFrom(seed);
    const stretch = 1 + (recorder.driftPpm + chance.between(-3, 3)) * 1e-6;
    const startS = recorder.startS + chance.between(-0.3, 0.9);
    const count = Math.round((startS + track.durationS + 0.5) * recorder.rateHz);
    const step = track.rateHz / (recorder.rateHz * stretch);
    const sound = resampled(sounds.get(place) ?? new Float64Array(1), (-startS / stretch) * track.rateHz, step, count);
    const noise = ambientNoise({ ...recorder.noise, levelDb: noiseDb }, seed, count, recorder.rateHz);
    let signal: Float64Array = sound.map((value, n) => recorder.sign * (gain * value + noise[n]));
    for (const effect of recorder.effects) signal = withEffect(signal, effect, recorder.rateHz);
    return { place, samples: quantised(signal, recorder.bits, seed), rateHz: recorder.rateHz, bits: recorder.bits };
  });
}
