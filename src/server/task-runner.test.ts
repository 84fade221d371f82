import { Worker } from 'node:worker_threads';
import { afterEach, expect, test } from 'vitest';
import { workerRunner } from './task-runner.ts';
import type { Task } from './worker-messages.ts';

/** A worker that does as the track's kind tells it: what a real one may do, well or badly. */
const code = `
const { parentPort } = require('node:worker_threads');
parentPort.on('message', async ({ task, stop }) => {
  const flag = new Int32Array(stop);
  const deed = task.track.kind;
  if (deed === 'progress') {
    parentPort.postMessage({ say: 'progress', share: 0.5, doing: 'half' });
    parentPort.postMessage({ say: 'done', outcome: null });
  }
  if (deed === 'done') parentPort.postMessage({ say: 'done', outcome: null });
  if (deed === 'refuse') parentPort.postMessage({ say: 'refused', issues: [{ code: 'no', message: 'no' }] });
  if (deed === 'fail') parentPort.postMessage({ say: 'failed', message: 'a bug' });
  if (deed === 'full') parentPort.postMessage({ say: 'failed', message: 'x', code: 'ENOSPC' });
  if (deed === 'die') process.exit(1);
  if (deed === 'throw') setTimeout(() => { throw new Error('thrown'); });
  if (deed === 'obey') {
    while (Atomics.load(flag, 0) === 0) await new Promise((resolve) => setTimeout(resolve, 5));
    parentPort.postMessage({ say: 'refused', issues: [{ code: 'reading-cancelled', message: 'stopped' }] });
  }
  if (deed === 'deaf') for (;;) {}
});`;

let made = 0;
const runnerOf = (workersMax: number) =>
  workerRunner(() => {
    made++;
    return new Worker(code, { eval: true });
  }, workersMax);
let runner = runnerOf(1);
afterEach(async () => {
  await runner.stop();
  runner = runnerOf(1);
  made = 0;
});

const task = (deed: string) => ({ kind: 'render', path: '', track: { kind: deed } }) as unknown as Task;
const run = (deed: string, heard: string[] = []) => runner.run(task(deed), (_, doing) => heard.push(doing));

test('tells progress and outcome, and uses its worker again', async () => {
  const heard: string[] = [];
  expect(await run('progress', heard).done).toEqual({ ok: true, value: null });
  expect(heard).toEqual(['half']);
  expect(await run('refuse').done).toMatchObject({ ok: false, issues: [{ code: 'no' }] });
  await expect(run('fail').done).rejects.toThrow('a bug');
  await expect(run('full').done).rejects.toMatchObject({ issue: { code: 'disk-full' } });
  expect(made).toBe(1);
});

test('a worker that dies fails its own task only', async () => {
  const first = run('die').done;
  const second = run('done').done;
  await expect(first).rejects.toThrow('ended in the middle');
  expect(await second).toEqual({ ok: true, value: null });
  await expect(run('throw').done).rejects.toThrow('thrown');
  expect(await run('done').done).toMatchObject({ ok: true });
});

test('tasks beyond the workers wait their turn, and may be cancelled there', async () => {
  const first = run('obey');
  const second = run('done');
  const third = run('done');
  second.cancel();
  expect(await second.done).toMatchObject({ ok: false, issues: [{ code: 'reading-cancelled' }] });
  first.cancel();
  expect(await first.done).toMatchObject({ ok: false, issues: [{ code: 'reading-cancelled' }] });
  expect(await third.done).toMatchObject({ ok: true });
  expect(made).toBe(1);
});

test('a worker that does not hear is ended', { timeout: 20_000 }, async () => {
  const deaf = run('deaf');
  await new Promise((resolve) => setTimeout(resolve, 200));
  deaf.cancel();
  expect(await deaf.done).toMatchObject({ ok: false, issues: [{ code: 'reading-cancelled' }] });
  expect(await run('done').done).toMatchObject({ ok: true });
});

test('several workers work side by side', async () => {
  runner = runnerOf(2);
  const first = run('obey');
  expect(await run('done').done).toMatchObject({ ok: true });
  first.cancel();
  await first.done;
  expect(made).toBe(2);
});
