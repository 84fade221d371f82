// What every check of a recording may look at.
import type { Recording } from '../../signals/recording.ts';
import type { TrackDescription } from '../../signals/track.ts';
import type { Located } from '../locate-track.ts';
import type { NoiseDensity } from '../noise-density.ts';
import type { ProblemCode, Severity } from '../problems.ts';
import type { Survey } from '../survey.ts';
import type { QuietStretches, TimedEvent } from '../timeline.ts';

export interface TakeContext {
  recording: Recording;
  channel: number;
  track: TrackDescription;
  survey: Survey;
  located: Located;
  events: TimedEvent[];
  quiet: QuietStretches;
  noiseBefore: NoiseDensity | null;
  noiseAfter: NoiseDensity | null;
  /** Background during the first sweep over that before the track, dB; null where it cannot be told. */
  noiseDuringDb: number | null;
  /** Least and greatest frequency that the track's stimuli cover, Hz. */
  stimulusHz: { low: number; high: number };
}

/** What a check found; its severity follows from what it forbids unless the check knows better. */
export interface Finding {
  code: ProblemCode;
  message: string;
  mend: string;
  atS?: number;
  values?: Record<string, number>;
  severity?: Severity;
}

export type Check = (context: TakeContext) => Finding | null;

/** Root mean square of a stretch of one channel. */
export function rmsOf(context: Pick<TakeContext, 'recording' | 'channel'>, start: number, length: number): number {
  if (length <= 0) return 0;
  const block = new Float64Array(length);
  context.recording.readChannel(context.channel, Math.round(start), length, block);
  let sum = 0;
  for (let n = 0; n < length; n++) sum += block[n] * block[n];
  return Math.sqrt(sum / length);
}
