// Runs tasks in worker threads: a few at a time, the rest wait in the order in which they came.
import type { Worker } from 'node:worker_threads';
import { failure, type Result, success } from '../base/result.ts';
import { asStoreFailure } from '../store/failure.ts';
import type { TaskMessage, WorkerMessage } from './worker-messages.ts';
import { cancelledIssue, type Task, type TaskOutcome } from './worker-messages.ts';

export interface RunningTask {
  /** Rejected when the worker broke down. */
  done: Promise<Result<TaskOutcome>>;
  /** Asks it to stop; `done` then says so soon. */
  cancel: () => void;
}

export interface TaskRunner {
  run(task: Task, onProgress: (share: number, doing: string) => void): RunningTask;
  /** Stops everything, now. */
  stop(): Promise<void>;
}

/** A worker that does not stop when asked is ended after this. */
const patienceMs = 2000;

interface Waiting {
  task: Task;
  stop: Int32Array;
  onProgress: (share: number, doing: string) => void;
  resolve: (result: Result<TaskOutcome>) => void;
  reject: (error: unknown) => void;
}

/** A runner with up to `workersMax` threads; they are started when they are needed and stay. */
export function workerRunner(makeWorker: () => Worker, workersMax: number): TaskRunner {
  const idle: Worker[] = [];
  const busy = new Map<Worker, Waiting>();
  const queue: Waiting[] = [];
  let stopped = false;

  function next(): void {
    while (!stopped && queue.length > 0 && busy.size < workersMax) {
      const worker = idle.pop() ?? started();
      const waiting = queue.shift() as Waiting;
      busy.set(worker, waiting);
      // Only work keeps the process alive, not a worker that waits for it.
      worker.ref();
      const message: TaskMessage = { task: waiting.task, stop: waiting.stop.buffer as SharedArrayBuffer };
      worker.postMessage(message);
    }
  }

  function started(): Worker {
    const worker = makeWorker();
    worker.on('message', (message: WorkerMessage) => heard(worker, message));
    worker.on('error', (error) => ended(worker, error));
    worker.on('exit', () => ended(worker, new Error('the worker ended in the middle of its work')));
    return worker;
  }

  function heard(worker: Worker, message: WorkerMessage): void {
    const waiting = busy.get(worker);
    if (waiting === undefined) return;
    if (message.say === 'progress') {
      waiting.onProgress(message.share, message.doing);
      return;
    }
    busy.delete(worker);
    worker.unref();
    idle.push(worker);
    if (message.say === 'done') waiting.resolve(success(message.outcome));
    else if (message.say === 'refused') waiting.resolve(failure(...message.issues));
    else waiting.reject(asStoreFailure(Object.assign(new Error(message.message), { code: message.code })));
    next();
  }

  function ended(worker: Worker, error: Error): void {
    const waiting = busy.get(worker);
    busy.delete(worker);
    const at = idle.indexOf(worker);
    if (at >= 0) idle.splice(at, 1);
    if (waiting === undefined) return;
    if (Atomics.load(waiting.stop, 0) !== 0) waiting.resolve(failure(cancelledIssue));
    else waiting.reject(error);
    next();
  }

  function cancel(waiting: Waiting): void {
    Atomics.store(waiting.stop, 0, 1);
    const at = queue.indexOf(waiting);
    if (at >= 0) {
      queue.splice(at, 1);
      waiting.resolve(failure(cancelledIssue));
      return;
    }
    const worker = [...busy].find(([, running]) => running === waiting)?.[0];
    if (worker === undefined) return;
    setTimeout(() => {
      if (busy.get(worker) === waiting) void worker.terminate();
    }, patienceMs).unref();
  }

  return {
    run(task, onProgress) {
      let waiting!: Waiting;
      const done = new Promise<Result<TaskOutcome>>((resolve, reject) => {
        waiting = { task, stop: new Int32Array(new SharedArrayBuffer(4)), onProgress, resolve, reject };
      });
      queue.push(waiting);
      next();
      return { done, cancel: () => cancel(waiting) };
    },
    async stop() {
      stopped = true;
      for (const waiting of [...queue]) cancel(waiting);
      const workers = [...idle, ...busy.keys()];
      for (const waiting of busy.values()) Atomics.store(waiting.stop, 0, 1);
      await Promise.all(workers.map((worker) => worker.terminate()));
    },
  };
}
