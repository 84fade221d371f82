// What a person should know before a track is played: ears, tweeters, and what its recording will not be able to say.
import type { TrackDescription, TrackSegment } from '../track.ts';
import { UNPROVEN_LEVEL_DBFS } from './defaults.ts';
import type { TrackRequest } from './request.ts';

/** A thing to know before playing; `code` is stable for scripts. */
export interface TrackCaution {
  code: string;
  message: string;
}

/** Below this a bare tweeter is in danger at any level, Hz. */
const TWEETER_SAFE_HZ = 1000;
/** A tweeter's sweep slower than this heats its coil, s per octave. */
const TWEETER_OCTAVE_S = 1;
/** Until polarity and high-pass are proven a steady tone stays below this, dBFS. */
const STEADY_TONE_DBFS = -20;
/** Above this it is loud at an ordinary volume setting. */
const LOUD_DBFS = -12;
const GROUP_EVERY_S = 30;

type Numbers = Record<string, number | undefined>;

function lowestHz(segment: TrackSegment): number {
  const { fHz, fromHz, toHz } = segment as unknown as Numbers;
  if (segment.kind === 'silence' || segment.kind === 'marker') return Number.POSITIVE_INFINITY;
  return Math.min(
    fHz ?? Number.POSITIVE_INFINITY,
    fromHz ?? Number.POSITIVE_INFINITY,
    toHz ?? Number.POSITIVE_INFINITY,
  );
}

/**
 * Cautions for a track, the gravest first.
 *
 * @param request  the wish that `track` was designed from
 */
export function trackCautions(request: TrackRequest, track: TrackDescription): TrackCaution[] {
  const cautions: TrackCaution[] = [];
  const caution = (code: string, message: string): number => cautions.push({ code, message });
  const stimuli = track.segments.filter(({ kind }) => kind !== 'silence' && kind !== 'marker');
  const marked = track.segments.filter(({ kind }) => kind === 'marker');
  const topDbfs = Math.max(...track.segments.map((segment) => (segment as unknown as Numbers).levelDbfs ?? -160));
  const lowHz = Math.min(...track.segments.map(lowestHz));
  if (request.kind === 'steps' || topDbfs > LOUD_DBFS) {
    caution('ears', 'It gets loud: everyone in and near the car wears hearing protection.');
  }
  if (lowHz < TWEETER_SAFE_HZ) {
    const low = Number(lowHz.toPrecision(3));
    caution(
      'tweeter-protection',
      `It plays down to ${low} Hz: keep it off a bare tweeter and off any driver whose high-pass is not proven.`,
    );
  }
  if ((request.kind === 'tone' || request.kind === 'ladder') && topDbfs > STEADY_TONE_DBFS) {
    caution('unplug-drivers', `Steady tones above ${STEADY_TONE_DBFS} dBFS are for a meter: unplug the drivers first.`);
  }
  if (stimuli.some((segment) => topDbfs > STEADY_TONE_DBFS && heatsTweeter(segment))) {
    caution('tweeter-heat', 'The sweep dwells longer than 1 s on each octave of a tweeter: shorten it or lower it.');
  }
  caution(
    'start-low',
    `Turn the volume right down before it plays, then raise it; a new plan is first heard at ${UNPROVEN_LEVEL_DBFS} dBFS.`,
  );
  if (request.kind === 'bursts' && request.tonesHz === undefined && (request.levelDbfs ?? topDbfs) > topDbfs) {
    caution(
      'leads-unproven',
      `Leads that nobody has proven are heard at ${topDbfs} dBFS; give each output's tone for more.`,
    );
  }
  if (request.kind === 'near') {
    caution(
      'close-microphone',
      'A small driver at 4 cm is 25 to 30 dB louder than at the seat: keep the recorder low.',
    );
  }
  if (marked.length === 0) {
    caution(
      'no-markers',
      'Without markers its recording tells no arrival time, and polarity only with less certainty.',
    );
  } else if (stimuli.some(({ durationS }) => durationS > GROUP_EVERY_S)) {
    caution('long-stimulus', `A stimulus is longer than ${GROUP_EVERY_S} s: a sound lost inside it cannot be placed.`);
  }
  return cautions;
}

function heatsTweeter(segment: TrackSegment): boolean {
  if (segment.kind !== 'sweep') return false;
  const { fromHz, toHz, durationS } = segment as unknown as { fromHz: number; toHz: number; durationS: number };
  return fromHz >= 0.8 * TWEETER_SAFE_HZ && durationS / Math.log2(toHz / fromHz) > TWEETER_OCTAVE_S;
}
