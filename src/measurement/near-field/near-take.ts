// One near-field take: what the recording is worth, and the response that each side's sweep shows at the microphone.
import type { Recording } from '../../signals/recording.ts';
import { harmonicLeadS } from '../../signals/sweep.ts';
import type { SweepSegment, TrackDescription } from '../../signals/track.ts';
import { chosenChannel } from '../channel-choice.ts';
import { checkedRecording } from '../checks/all-checks.ts';
import type { TakeContext } from '../checks/take-context.ts';
import { takeContext } from '../checks/take-context-of.ts';
import { octaveGrid } from '../grids.ts';
import { type NoiseDensity, noiseDensity, type Stretch } from '../noise-density.ts';
import { problemFrom } from '../permissions.ts';
import type { Problem, ProblemCode } from '../problems.ts';
import { type SweepImpulse, sweepImpulse } from '../sweep-impulse.ts';
import { gridResponse, linearResponse } from '../sweep-response.ts';
import { DECAY_S, type TimedEvent, tailOf } from '../timeline.ts';

export type OneSide = 'left' | 'right';

/** What one side's sweep brought to the microphone. */
export interface NearSide {
  /** Mean |H|^2 on the take's grid, recorded per played full scale, noise included. */
  power: Float64Array;
  /** What of it is noise. */
  noise: Float64Array;
  impulse: SweepImpulse;
}

export interface NearTake {
  usable: boolean;
  /** Why it is not: one sentence; null where it is. */
  reason: string | null;
  problems: Problem[];
  /** Rising, 12 an octave. */
  fHz: number[];
  left: NearSide | null;
  right: NearSide | null;
  background: NoiseDensity | null;
}

export const POINTS_PER_OCTAVE = 12;
const SMOOTH_OCTAVES = 1 / 6;

/** Problems after which nothing close to a driver can be believed, whatever a take at the seat would still show. */
const SPOILING: ProblemCode[] = ['clipped-digital', 'clipped-analogue', 'agc', 'gated', 'gap', 'zero-fill'];

/** Sound kept before and after the markers' moment, s: a driver may be nearer than the tweeter that plays the markers. */
const BEFORE_S = 0.03;
const AFTER_S = 0.15;

function sideOf(context: TakeContext, events: TimedEvent[], background: NoiseDensity | null, fHz: number[]): NearSide {
  const { recording, channel, track, located } = context;
  const power = new Float64Array(fHz.length);
  const noise = new Float64Array(fHz.length);
  let impulse: SweepImpulse | null = null;
  for (const event of events) {
    const segment = event.segment as SweepSegment;
    const tailS = tailOf(event, context.events, recording.frames, located.effectiveRateHz, DECAY_S);
    const own = sweepImpulse(recording, channel, segment, event.start, located.effectiveRateHz, track.rateHz, tailS);
    impulse ??= own;
    const before = Math.min(BEFORE_S, 0.4 * harmonicLeadS(own.shape, 2));
    const view = { fromS: -before, toS: Math.min(AFTER_S, tailS), riseS: before / 2, fallS: 0.03 };
    const seen = gridResponse(linearResponse(own, view, 0), fHz, SMOOTH_OCTAVES, background);
    fHz.forEach((_, k) => {
      power[k] += seen.power[k] / events.length;
      noise[k] += (seen.noise[k] ?? 0) / events.length;
    });
  }
  if (!impulse) throw new Error('a side must have a sweep');
  return { power, noise, impulse };
}

/** The grid on which all takes of a track stand: what its sweeps cover and 48 kHz carry. */
function gridOf(track: TrackDescription, rateHz: number): number[] {
  const sweeps = track.segments.filter((segment): segment is SweepSegment => segment.kind === 'sweep');
  if (sweeps.length === 0) return [];
  const low = Math.max(...sweeps.map(({ fromHz, fadeInS = 0 }) => fromHz * (fadeInS > 0 ? 1.2 : 1.5)));
  const high = Math.min(...sweeps.map(({ toHz }) => toHz / 1.2), 0.45 * rateHz);
  return octaveGrid(low, high, POINTS_PER_OCTAVE);
}

/**
 * Reads a take made close to one driver while a `near` track plays on everything.
 *
 * @param recording  any rate from 4 to 768 kHz; the input that hears the track best is read
 * @param track      with at least one sweep on the left alone and one on the right alone
 * @returns spectra of both sides, or the reason why the take says nothing; never throws for what was recorded
 * Source: own method; deconvolution after A. Farina, 108th AES Convention, preprint 5093, 2000.
 */
export function nearTake(recording: Recording, track: TrackDescription): NearTake {
  const found = chosenChannel(recording, track, undefined, () => {});
  const context = takeContext(recording, track, found);
  const { located, events, quiet } = context;
  const problems = checkedRecording(context).map((finding) => problemFrom(finding, track.kind));
  const fHz = gridOf(track, recording.rateHz * located.ratio);
  const nothing: NearTake = { usable: false, reason: null, problems, fHz, left: null, right: null, background: null };
  const stop =
    problems.find(({ severity }) => severity === 'stop') ?? problems.find(({ code }) => SPOILING.includes(code));
  if (stop) return { ...nothing, reason: stop.message };
  if (located.how === 'nothing') return { ...nothing, reason: 'Nothing of the track stands out of what was recorded.' };
  const sweepsOf = (side: OneSide): TimedEvent[] =>
    events.filter(({ segment }) => segment.kind === 'sweep' && (segment as SweepSegment).side === side);
  const [left, right] = [sweepsOf('left'), sweepsOf('right')];
  if (left.length === 0 || right.length === 0) {
    return { ...nothing, reason: 'The track has no sweep on each side alone: make one with "track near".' };
  }
  const stretches = [quiet.before, ...quiet.between, quiet.after].filter((s): s is Stretch => s !== null);
  const background = noiseDensity(recording, located.channel, stretches, located.effectiveRateHz);
  return {
    ...nothing,
    usable: true,
    left: sideOf(context, left, background, fHz),
    right: sideOf(context, right, background, fHz),
    background,
  };
}
