// What one output of a source gave while a track played: its level, its phase and its time on the take's one time line.
import { minimumPhaseLog } from '../../signals/minimum-phase.ts';
import type { Recording } from '../../signals/recording.ts';
import type { Side, SweepSegment, TrackDescription } from '../../signals/track.ts';
import { chosenChannel } from '../channel-choice.ts';
import { checkedRecording } from '../checks/all-checks.ts';
import type { TakeContext } from '../checks/take-context.ts';
import { takeContext } from '../checks/take-context-of.ts';
import { octaveGrid } from '../grids.ts';
import { noiseDensity, type Stretch } from '../noise-density.ts';
import { problemFrom } from '../permissions.ts';
import { meanPower } from '../power-curve.ts';
import type { Problem } from '../problems.ts';
import { survey } from '../survey.ts';
import { type SweepImpulse, sweepImpulse } from '../sweep-impulse.ts';
import { gridResponse, type LinearResponse, linearResponse, longView, trustedRange } from '../sweep-response.ts';
import { DECAY_S, tailOf } from '../timeline.ts';
import { type ExcessPhase, type PhaseModel, phaseModel } from './excess-phase.ts';

export interface OutputResponse {
  /** Null where the output can be read. */
  reason: string | null;
  problems: Problem[];
  /** Which side of the track feeds it, louder than the other by 12 dB. */
  side: Side | null;
  /** Rising, 12 an octave. */
  fHz: number[];
  /** Output over played full scale; null where noise hides it. */
  levelDb: (number | null)[];
  /** The complex response on the take's time line, for sums. */
  re: number[];
  im: number[];
  phase: PhaseModel | null;
  /** When the output begins to speak on the take's time line, s. */
  startS: number;
}

const PER_OCTAVE = 12;
const SMOOTH_OCTAVES = 1 / 12;
/** A level is known where it stands this far over the noise, dB. */
const CLEAR_DB = 10;
/** Phase is used where the level is within this of the loudest, dB. */
const LOUD_DB = 24;
/** The source may be this late or early against the line of the markers, s. */
const REACH_S = 0.1;
const SIDE_POWER = 16;

function loudestS({ samples, size, rateHz }: SweepImpulse): number {
  const reach = Math.round(REACH_S * rateHz);
  let best = 0;
  let most = 0;
  for (let n = -reach; n <= reach; n++) {
    const value = Math.abs(samples[(n + size) % size]);
    if (value > most) {
      most = value;
      best = n;
    }
  }
  return best / rateHz;
}

/** Magnitude over all bins; outside the range that was measured it goes on as it falls at the edges, 48 dB an octave at most. */
function magnitudeOf({ curve, binHz, spectrum, impulse }: LinearResponse): Float64Array {
  const { lowHz, highHz } = trustedRange(impulse);
  const at = (fHz: number): number => Math.sqrt(Math.max(meanPower(curve, fHz, 1 / 24), 1e-24));
  const slope = (from: number, to: number): number =>
    Math.max(-8, Math.min(8, Math.log2(at(to) / at(from)) / Math.log2(to / from)));
  const [low, high] = [at(lowHz), at(highHz)];
  const rising = Math.max(0, slope(lowHz, 1.4 * lowHz));
  const falling = Math.min(0, slope(highHz / 1.4, highHz));
  return Float64Array.from({ length: spectrum.re.length }, (_, k) => {
    const f = Math.max(k, 0.5) * binHz;
    if (f < lowHz) return low * (f / lowHz) ** rising;
    return f > highHz ? high * (f / highHz) ** falling : at(f);
  });
}

/** Phase beyond the minimum phase at the grid's loud points, counted from the response's own origin. */
function excessOf(response: LinearResponse, fHz: number[], loud: readonly boolean[]): ExcessPhase {
  const { re, im } = response.spectrum;
  const minimum = minimumPhaseLog(magnitudeOf(response), 2 * (re.length - 1)).im;
  const excess: ExcessPhase = { fHz: [], rad: [] };
  let before: number | null = null;
  fHz.forEach((f, i) => {
    if (!loud[i]) return;
    const k = Math.round(f / response.binHz);
    let rad = Math.atan2(im[k], re[k]) - minimum[k];
    if (before !== null) rad -= 2 * Math.PI * Math.round((rad - before) / (2 * Math.PI));
    before = rad;
    excess.fHz.push(k * response.binHz);
    excess.rad.push(rad);
  });
  return excess;
}

function sweepsBySide(context: TakeContext): Map<Side, SweepImpulse> {
  const { recording, channel, track, located, events } = context;
  const found = new Map<Side, SweepImpulse>();
  for (const event of events) {
    if (event.segment.kind !== 'sweep') continue;
    const segment = event.segment as SweepSegment;
    if (found.has(segment.side)) continue;
    const tailS = tailOf(event, events, recording.frames, located.effectiveRateHz, DECAY_S);
    const rateHz = located.effectiveRateHz;
    found.set(segment.side, sweepImpulse(recording, channel, segment, event.start, rateHz, track.rateHz, tailS));
  }
  return found;
}

const energyOf = ({ samples }: SweepImpulse): number => samples.reduce((sum, x) => sum + x * x, 0);

function readOutput(context: TakeContext): OutputResponse {
  const { recording, located, track, quiet } = context;
  const problems = checkedRecording(context).map((finding) => problemFrom(finding, track.kind));
  const nothing = { problems, side: null, fHz: [], levelDb: [], re: [], im: [], phase: null, startS: 0 };
  const stop = problems.find(({ severity }) => severity === 'stop');
  if (stop) return { ...nothing, reason: stop.message };
  const impulses = sweepsBySide(context);
  const ranked = [...impulses].sort((a, b) => energyOf(b[1]) - energyOf(a[1]));
  if (ranked.length === 0) return { ...nothing, reason: 'The track has no sweep.' };
  const [[loudest, impulse]] = ranked;
  const both = ranked.length > 1 && energyOf(ranked[1][1]) * SIDE_POWER > energyOf(impulse);
  const stretches = [quiet.before, ...quiet.between, quiet.after].filter((part): part is Stretch => part !== null);
  const noise = noiseDensity(recording, located.channel, stretches, located.effectiveRateHz);
  const originS = loudestS(impulse);
  const response = linearResponse(impulse, longView(originS, impulse), originS);
  const { lowHz, highHz } = trustedRange(impulse);
  const grid = gridResponse(response, octaveGrid(lowHz, highHz, PER_OCTAVE), SMOOTH_OCTAVES, noise);
  const levelDb = grid.power.map((power, i) => {
    const clear = power > (grid.noise[i] ?? 0) * 10 ** (CLEAR_DB / 10);
    return clear && power > 0 ? 10 * Math.log10(power) : null;
  });
  const most = Math.max(...levelDb.map((level) => level ?? Number.NEGATIVE_INFINITY));
  if (!Number.isFinite(most)) return { ...nothing, reason: 'Nothing of the track stands out of the noise.' };
  const loud = levelDb.map((level) => level !== null && level > most - LOUD_DB);
  const phase = phaseModel(excessOf(response, grid.fHz, loud));
  const turned = grid.fHz.map((f) => -2 * Math.PI * f * originS);
  return {
    reason: null,
    problems,
    side: both ? 'both' : loudest,
    fHz: grid.fHz,
    levelDb,
    re: grid.re.map((re, i) => re * Math.cos(turned[i]) - grid.im[i] * Math.sin(turned[i])),
    im: grid.im.map((im, i) => im * Math.cos(turned[i]) + grid.re[i] * Math.sin(turned[i])),
    phase,
    startS: originS + (phase?.delayS ?? 0),
  };
}

/**
 * Reads the outputs of a source that were recorded at once, one an input of the recorder.
 *
 * @param inputs  which inputs to read, counted from 0; null reads the one that hears the track best
 * @returns one a wanted input, all on the time line of the input that hears the track best
 */
export function outputResponses(
  recording: Recording,
  track: TrackDescription,
  inputs: readonly number[] | null,
): OutputResponse[] {
  const best = chosenChannel(recording, track, undefined, () => {});
  return (inputs ?? [best.located.channel]).map((channel) =>
    readOutput(
      takeContext(recording, track, {
        located: { ...best.located, channel },
        survey: channel === best.located.channel ? best.survey : survey(recording, channel),
      }),
    ),
  );
}
