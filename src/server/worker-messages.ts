// What the server and its workers say to each other.
import type { Issue } from '../base/result.ts';
import type { Task, TaskOutcome } from './reading-tasks.ts';

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
