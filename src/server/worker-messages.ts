// What the server and its workers say to each other.
import type { Issue } from '../base/result.ts';
import type { JobNearWalk } from '../job/near-walk/job-near-walk.ts';
import type { ImpulseResponse, Reading, ReadOptions } from '../measurement/reading.ts';
import type { TrackDescription } from '../signals/track.ts';
import type { NearPlan } from '../wiring/near-plan.ts';

export interface ReadTask {
  kind: 'read';
  recordingPath: string;
  track: TrackDescription;
  options: ReadOptions;
}

export interface RenderTask {
  kind: 'render';
  track: TrackDescription;
  /** Where the WAV file is to stand; it is there whole or not at all. */
  path: string;
}

/** Takes close to the drivers of a job, read together. */
export interface NearWalkTask {
  kind: 'near-walk';
  plan: NearPlan;
  /** What was read of a take is kept at `keptAt`, and taken from there if it stands there already. */
  takes: { place: string; recordingPath: string; track: TrackDescription; keptAt: string }[];
}

/** One long recording cut into the plays of a track that it holds. */
export interface PlaysTask {
  kind: 'plays';
  recordingPath: string;
  track: TrackDescription;
}

export type Task = ReadTask | RenderTask | NearWalkTask | PlaysTask;

export interface ReadOutcome {
  reading: Reading;
  impulse: ImpulseResponse | null;
}

export interface NearWalkOutcome {
  walk: JobNearWalk;
}

/** A play as a WAV file of its own. */
export interface PlayOutcome {
  startS: number;
  durationS: number;
  wav: Uint8Array;
}

export interface PlaysOutcome {
  plays: PlayOutcome[];
}

/** Null for a track that was rendered. */
export type TaskOutcome = ReadOutcome | NearWalkOutcome | PlaysOutcome | null;

export const cancelledIssue: Issue = {
  code: 'reading-cancelled',
  message: 'The reading was stopped.',
  mend: 'Start it again; nothing is lost.',
};

export interface TaskMessage {
  task: Task;
  /** One 32-bit number in shared memory; the worker stops when it is no longer 0. */
  stop: SharedArrayBuffer;
}

export type WorkerMessage =
  | { say: 'progress'; share: number; doing: string }
  | { say: 'done'; outcome: TaskOutcome }
  | { say: 'refused'; issues: Issue[] }
  | { say: 'failed'; message: string; code?: string };
