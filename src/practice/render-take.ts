// One take of a simulated car, and the truth about it.
import { ambientNoise } from './ambient-noise.ts';
import { DIRECT_INDEX } from './cabin.ts';
import type { Feed } from './car.ts';
import { seedFor } from './chance.ts';
import { addAt, addConvolved } from './convolution.ts';
import { resampled } from './interpolation.ts';
import { addEvent } from './noise-events.ts';
import { radiated, roomImpulse } from './path.ts';
import { rattleSound } from './rattle.ts';
import { PLAIN_RECORDER, quantised, type RecorderSettings } from './recorder.ts';
import { withEffect } from './recorder-effects.ts';
import { edited } from './recording-edits.ts';
import { noiseLevelForSnr } from './signal-to-noise.ts';
import { stretchesWithSound } from './stretches.ts';
import { flown, SIDE_ZERO, sideImpulses, withoutSilentEnd } from './take-impulse.ts';
import { type PlayingPlace, playingPlaces, type TakeRequest } from './take-request.ts';
import { type TakeTruth, truthOfTake } from './take-truth.ts';
import { type TrackAudio, trackAudio } from './track-audio.ts';

/** A rendered take. */
export interface RenderedTake {
  /** One array a channel, full scale = 1, as a file of the recorder's bits holds them. */
  samples: Float64Array[];
  /** As the file's header says. */
  rateHz: number;
  bits: 16 | 24 | 32;
  truth: TakeTruth;
}

function driveOf(audio: TrackAudio, feed: Feed): Float64Array {
  const drive = new Float64Array(audio.left.length);
  if (feed.left !== 0) addAt(drive, audio.left, 0, feed.left);
  if (feed.right !== 0) addAt(drive, audio.right, 0, feed.right);
  return drive;
}

const AFTER_TRACK_S = 0.7;

/** A cone and its filters are at rest this long after the drive ends. */
const DRIVER_RINGS_S = 0.4;

/** What the source makes of the file: in nonlinear mode it clips where the car says. */
function fromSource(audio: TrackAudio, { car, mode }: TakeRequest): TrackAudio {
  if (mode !== 'nonlinear' || car.sourceClipDbfs === Number.POSITIVE_INFINITY) return audio;
  const limit = 10 ** (car.sourceClipDbfs / 20);
  const clipped = (side: Float64Array) => side.map((value) => Math.max(-limit, Math.min(limit, value)));
  return { left: clipped(audio.left), right: clipped(audio.right) };
}

/** Sound at the microphone on the track's clock, re recorded full scale; sample 0 is when the file's first sample plays. */
function soundAtMicrophone(
  request: TakeRequest,
  audio: TrackAudio,
  playing: readonly PlayingPlace[],
  impulses: { left: Float64Array; right: Float64Array },
): Float64Array {
  const { car, mode = 'linear' } = request;
  const { rateHz } = request.played ?? request.track;
  const sound = new Float64Array(audio.left.length + Math.ceil(AFTER_TRACK_S * rateHz));
  for (const { place, feed, directS } of playing) {
    if (!place.rattle) continue;
    const gain = 10 ** (car.volumeDb / 20);
    const buzz = rattleSound(
      place.rattle,
      driveOf(audio, { left: gain * feed.left, right: gain * feed.right }),
      rateHz,
      request.seed,
    );
    addAt(sound, buzz, Math.round(directS * rateHz));
  }
  if (mode === 'linear') {
    addConvolved(sound, audio.left, impulses.left, -SIDE_ZERO);
    addConvolved(sound, audio.right, impulses.right, -SIDE_ZERO);
    return sound;
  }
  for (const { place, feed, directS } of playing) {
    const moved = flown(roomImpulse(car, place, rateHz), DIRECT_INDEX, directS * rateHz);
    const drive = new Float64Array(sound.length);
    addAt(drive, driveOf(audio, feed), 0);
    for (const { from, to } of stretchesWithSound(drive, 128, Math.ceil(DRIVER_RINGS_S * rateHz))) {
      const source = radiated(car, place, drive.subarray(from, to), rateHz, false);
      addConvolved(sound, source, withoutSilentEnd(moved.response), from + moved.offset);
    }
  }
  return sound;
}

function recorded(sound: Float64Array, recorder: RecorderSettings, seed: number): Float64Array {
  let signal = sound;
  for (const effect of recorder.effects) signal = withEffect(signal, effect, recorder.rateHz);
  signal = signal.map((value) => value * recorder.sign);
  for (const edit of recorder.edits) signal = edited(signal, edit, recorder.rateHz, seed);
  return quantised(signal, recorder.bits, seed);
}

function requireRate(name: string, rateHz: number): void {
  if (!(rateHz >= 8000 && rateHz <= 192_000)) throw new RangeError(`${name} must be 8000..192000 Hz, got ${rateHz}`);
}

/**
 * A take of a simulated car with its truth.
 *
 * Linear mode builds one impulse response for each input side and convolves; nonlinear mode solves each driver in time.
 * Either way the sound is then taken at the recorder's own instants by a windowed sinc of 96 taps.
 *
 * @param request  see its type; the same request always gives the same samples
 * @throws RangeError  a place the car does not have, or a rate outside 8 000 .. 192 000 Hz
 * Accuracy: response within 0.05 dB of the formulas, start and drift within 0.05 sample (render-take.test.ts)
 * @example renderTake({ track, car: carFromSeed(1), on: ['door-left', 'tweeter-right'], seed: 1 })
 */
export function renderTake(request: TakeRequest): RenderedTake {
  const recorder = { ...PLAIN_RECORDER, ...request.recorder };
  const played = request.played ?? request.track;
  requireRate('track rate', played.rateHz);
  requireRate('recorder rate', recorder.rateHz);
  const playing = playingPlaces(request);
  const audio = fromSource(trackAudio(played), request);
  const impulses = sideImpulses(request, playing, played.rateHz);
  const { truth, referenceS, test } = truthOfTake(request, playing, recorder, impulses);
  const stretch = 1 + recorder.driftPpm * 1e-6;
  const durationS = recorder.durationS ?? recorder.startS + played.durationS + 0.5;
  const count = Math.max(0, Math.round(durationS * recorder.rateHz));
  // Recorder sample m hears the track at t = reference + (m / rate - start) / (1 + drift).
  const firstS = referenceS - recorder.startS / stretch;
  const step = played.rateHz / (recorder.rateHz * stretch);
  const atRecorder = (signal: Float64Array, shiftS: number) =>
    resampled(signal, (firstS - shiftS) * played.rateHz, step, count);
  const clean = atRecorder(soundAtMicrophone(request, audio, playing, impulses), 0);
  const noise = ambientNoise(
    { ...recorder.noise, levelDb: 0 },
    seedFor(request.seed, 'ambient'),
    count,
    recorder.rateHz,
  );
  const levelDb =
    recorder.snrDb === null
      ? recorder.noise.levelDb
      : noiseLevelForSnr(recorder.snrDb, clean, noise, { recorder, test, stretch });
  addAt(clean, noise, 0, 10 ** (levelDb / 20));
  for (const event of recorder.events) addEvent(clean, event, recorder.rateHz, request.seed);
  const gain = 10 ** (recorder.gainDb / 20);
  const samples = [
    recorded(
      clean.map((value) => value * gain),
      recorder,
      request.seed,
    ),
  ];
  if (recorder.channels === 'twin') samples.push(Float64Array.from(samples[0]));
  if (recorder.channels === 'loop-back') {
    const line = driveOf(audio, { left: 0.5, right: 0.5 });
    const electrical = { ...recorder, effects: [], sign: 1 as const };
    samples.push(recorded(atRecorder(line, 0), electrical, seedFor(request.seed, 'line')));
  }
  return {
    samples,
    rateHz: recorder.labelRateHz ?? recorder.rateHz,
    bits: recorder.bits,
    truth: { ...truth, noiseLevelDb: levelDb + recorder.gainDb },
  };
}
