// The server as a function, over a fresh data folder, with readings done in this very thread.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { failure, type Result } from '../../src/base/result.ts';
import { makeApp } from '../../src/server/app.ts';
import { cacheFolder } from '../../src/server/cache-folder.ts';
import { readingDesk } from '../../src/server/reading-desk.ts';
import { performTask } from '../../src/server/reading-tasks.ts';
import type { TaskRunner } from '../../src/server/task-runner.ts';
import { cancelledIssue, type TaskOutcome } from '../../src/server/worker-messages.ts';
import type { Workshop } from '../../src/store/workshop.ts';
import { type FolderWorkshop, folderWorkshop } from '../job/workshops.ts';

export const port = 4870;
export const origin = `http://localhost:${port}`;

/** A runner without threads: a task begins when the gate opens, at once by default. */
export function runnerInThisThread(gate: () => Promise<void> = async () => {}): TaskRunner & { runs: number } {
  const runner = {
    runs: 0,
    run(task: Parameters<TaskRunner['run']>[0], onProgress: (share: number, doing: string) => void) {
      let cancelled = false;
      const work = async (): Promise<Result<TaskOutcome>> => {
        await gate();
        if (cancelled) return failure(cancelledIssue);
        runner.runs++;
        return performTask(task, { onProgress, cancelled: () => cancelled });
      };
      return {
        done: work(),
        cancel: () => {
          cancelled = true;
        },
      };
    },
    stop: async () => {},
  };
  return runner;
}

export interface Said {
  status: number;
  headers: Headers;
  // biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every form
  body: any;
}

export interface AppBench {
  workshop: Workshop;
  folder: string;
  faults: unknown[];
  request: (path: string, init?: RequestInit) => Promise<Response>;
  get: (path: string) => Promise<Said>;
  send: (method: string, path: string, body: unknown, type?: string) => Promise<Said>;
  clear: () => Promise<void>;
}

async function said(answer: Response): Promise<Said> {
  const json = (answer.headers.get('content-type') ?? '').includes('json');
  const body = json ? await answer.json() : new Uint8Array(await answer.arrayBuffer());
  return { status: answer.status, headers: answer.headers, body };
}

/** @param version of the reader; another one on the same folder reads anew */
export async function appBench(
  options: { bench?: FolderWorkshop; runner?: TaskRunner; version?: string } = {},
): Promise<AppBench> {
  const bench = options.bench ?? (await folderWorkshop());
  const { workshop, folder } = bench;
  const webFolder = join(folder, 'web');
  mkdirSync(join(webFolder, 'assets'), { recursive: true });
  writeFileSync(join(webFolder, 'index.html'), '<!doctype html><title>Kickpanel</title>');
  writeFileSync(join(webFolder, 'assets', 'app-1a2b.js'), 'console.log(1);');
  writeFileSync(join(folder, 'secret.txt'), 'not for pages');
  const readerVersion = options.version ?? 'test-1';
  const cache = cacheFolder(join(folder, 'cache'), readerVersion);
  const runner = options.runner ?? runnerInThisThread();
  const desk = readingDesk(workshop, runner, cache, readerVersion);
  const faults: unknown[] = [];
  const app = makeApp(
    { workshop, dataFolder: folder, desk, runner, cache, version: '0.0.0', readerVersion },
    { port: () => port, webFolder, onFault: (error) => faults.push(error) },
  );
  const request = async (path: string, init?: RequestInit) => app.request(`${origin}${path}`, init);
  return {
    workshop,
    folder,
    faults,
    request,
    get: async (path) => said(await request(path)),
    send: async (method, path, body, type = 'application/json') => {
      const bytes = type === 'application/json' && typeof body !== 'string' ? JSON.stringify(body) : (body as BodyInit);
      return said(await request(path, { method, body: bytes, headers: { 'content-type': type } }));
    },
    async clear() {
      await bench.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
