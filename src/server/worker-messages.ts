// What the server and its workers say to each other.
import type { Issue } from '../base/result.ts';
import type { ImpulseResponse, Reading, ReadOptions } from '../measurement/reading.ts';
import type { TrackDescription } from '../signals/track.ts';

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

export type Task = ReadTask | RenderTask;

export interface ReadOutcome {
  reading: Reading;
  impulse: ImpulseResponse | null;
}

/** Null for a track that was rendered. */
export type TaskOutcome = ReadOutcome | null;

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
