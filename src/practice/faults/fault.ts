// What a planted fault is: a changed world, and what is then true of it.
import { seedFor } from '../chance.ts';
import { PLAIN_RECORDER, type RecorderSettings } from '../recorder.ts';
import { renderTake } from '../render-take.ts';
import type { TakeRequest } from '../take-request.ts';

/** The truth about a planted fault, in the words a reader must find. */
export interface FaultTruth {
  name: string;
  /** Problem codes that must be raised. */
  mustFlag: readonly string[];
  /** At least one of these, when there are any. */
  mustFlagOneOf: readonly string[];
  /** Codes that may be raised besides, at any severity. */
  mayAlsoFlag: readonly string[];
  /** Whether results may be shown; null: either way. */
  usable: boolean | null;
  /** Numbers of the fault, their unit in the name. */
  detail: Readonly<Record<string, number | string>>;
}

/** A world with a fault in it. `renderTake(world)` gives its take. */
export interface FaultyWorld {
  world: TakeRequest;
  truth: FaultTruth;
}

/** Plants a fault. Pure: the world given is not changed. */
export type Fault = (world: TakeRequest) => FaultyWorld;

/** Truth with nothing demanded but what is given. */
export function truthOf(name: string, rest: Partial<Omit<FaultTruth, 'name'>>): FaultTruth {
  return { name, mustFlag: [], mustFlagOneOf: [], mayAlsoFlag: [], usable: null, detail: {}, ...rest };
}

/** The recorder of a world with all its settings. */
export function recorderOf(world: TakeRequest): RecorderSettings {
  return { ...PLAIN_RECORDER, ...world.recorder };
}

export function withRecorder(world: TakeRequest, change: Partial<RecorderSettings>): TakeRequest {
  return { ...world, recorder: { ...world.recorder, ...change } };
}

/** A repeatable draw in [low, high) for one purpose. */
export function drawn(world: TakeRequest, purpose: string, low: number, high: number): number {
  return low + (high - low) * (seedFor(world.seed, purpose) / 4294967296);
}

/** Time in the recording at which a moment of the track is heard, s. */
export function heardAtS(world: TakeRequest, trackS: number): number {
  const { startS, driftPpm } = recorderOf(world);
  return startS + trackS * (1 + driftPpm * 1e-6);
}

/** Start and length of the first stimulus on the track, s; the whole track without one. */
export function firstStimulus(world: TakeRequest): { startS: number; durationS: number } {
  const { segments, durationS } = world.played ?? world.track;
  return segments.find(({ kind }) => kind !== 'silence' && kind !== 'marker') ?? { startS: 0, durationS };
}

/** Peak of the recording as it would be with a recorder that has no limits, dB re full scale. */
export function peakDbfs(world: TakeRequest): number {
  const { samples } = renderTake(withRecorder(world, { bits: 32, effects: [], edits: [], channels: 'mono' }));
  return 20 * Math.log10(samples[0].reduce((most, value) => Math.max(most, Math.abs(value)), 1e-9));
}
