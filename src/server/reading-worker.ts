// A worker thread: takes one task after the other and says how far it is.
import { parentPort } from 'node:worker_threads';
import { performTask } from './reading-tasks.ts';
import type { TaskMessage, WorkerMessage } from './worker-messages.ts';

const port = parentPort;
if (port === null) throw new Error('this file runs as a worker');

port.on('message', ({ task, stop }: TaskMessage) => {
  const flag = new Int32Array(stop);
  const answer = (message: WorkerMessage, transfer: ArrayBuffer[] = []) => port.postMessage(message, transfer);
  let lastMs = 0;
  try {
    const result = performTask(task, {
      cancelled: () => Atomics.load(flag, 0) !== 0,
      onProgress: (share, doing) => {
        const nowMs = performance.now();
        if (nowMs - lastMs < 50) return;
        lastMs = nowMs;
        answer({ say: 'progress', share, doing });
      },
    });
    if (!result.ok) answer({ say: 'refused', issues: result.issues });
    else answer({ say: 'done', outcome: result.value });
  } catch (error) {
    const { message, code } = error as NodeJS.ErrnoException;
    answer({ say: 'failed', message, ...(typeof code === 'string' ? { code } : {}) });
  }
});
