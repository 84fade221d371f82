// The server started: data folder, workers and socket opened in the order in which they need each other.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { createAdaptorServer } from '@hono/node-server';
import { version } from '../../package.json';
import { failure, type Result, success } from '../base/result.ts';
import { openWorkshop } from '../store/data-folder.ts';
import { isStoreFailure } from '../store/failure.ts';
import { keepStates } from '../store/job-views.ts';
import { makeApp } from './app.ts';
import { cacheFolder } from './cache-folder.ts';
import { watchForeignChanges } from './foreign-changes.ts';
import { readingDesk } from './reading-desk.ts';
import { workerRunner } from './task-runner.ts';

export interface ServerOptions {
  /** 0 takes any that is free. */
  port: number;
  dataFolder: string;
  onFault: (error: unknown) => void;
}

export interface RunningServer {
  url: string;
  port: number;
  dataFolder: string;
  stop: () => Promise<void>;
}

/** The worker as it is built, beside this file. Its text names all that it is made of, by content. */
const workerFile = new URL('./reading-worker.mjs', import.meta.url);
const webFolder = fileURLToPath(new URL('../web', import.meta.url));

/** Readings of another reader are other readings: the version follows from the built worker itself. */
function readerVersionOf(): string {
  const text = readFileSync(workerFile);
  return `${version}-${createHash('sha256').update(text).digest('hex').slice(0, 12)}`;
}

/** Listens on this computer only. */
const loopback = '127.0.0.1';

/**
 * Starts the server.
 *
 * @returns where it listens, once it does; or why the port or the data folder cannot be used
 */
export async function startServer({ port, dataFolder, onFault }: ServerOptions): Promise<Result<RunningServer>> {
  let opened: Awaited<ReturnType<typeof openWorkshop>>;
  try {
    opened = await openWorkshop(dataFolder);
  } catch (error) {
    if (isStoreFailure(error)) return failure(error.issue);
    throw error;
  }
  const { workshop } = opened;
  const readerVersion = readerVersionOf();
  const cache = cacheFolder(join(dataFolder, 'cache'), readerVersion);
  const workers = Math.min(4, Math.max(1, availableParallelism() - 1));
  const runner = workerRunner(() => new Worker(workerFile), workers);
  const desk = readingDesk(workshop, runner, cache, readerVersion);
  let listening = port;
  const app = makeApp(
    { workshop, dataFolder, desk, runner, cache, version, readerVersion },
    { port: () => listening, webFolder, onFault },
  );
  const server = createAdaptorServer({ fetch: app.fetch, hostname: loopback }) as Server;
  const refused = await new Promise<NodeJS.ErrnoException | null>((resolve) => {
    server.once('error', resolve);
    server.listen(port, loopback, () => resolve(null));
  });
  if (refused !== null) {
    await opened.close();
    const taken = refused.code === 'EADDRINUSE';
    const message = taken ? `Port ${port} is taken by another program.` : `Port ${port} cannot be used.`;
    const mend = taken ? 'Is Kickpanel running already? Otherwise give another --port.' : 'Give another --port.';
    return failure({ code: taken ? 'port-taken' : 'port-refused', message, where: '--port', mend });
  }
  listening = (server.address() as { port: number }).port;
  const endWatch = await watchForeignChanges(workshop);
  return success({
    url: `http://localhost:${listening}/`,
    port: listening,
    dataFolder,
    async stop() {
      endWatch();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      // Whoever listens to news would keep it open for ever.
      server.closeAllConnections();
      await closed;
      await runner.stop();
      // A view that cannot be kept is made anew at the next start.
      await keepStates(workshop).catch(() => {});
      await opened.close();
    },
  });
}
