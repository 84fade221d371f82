// The real server as its own process, to be talked to and to be killed.
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { resolve } from 'node:path';

/** The command in this checkout, or a build that stands elsewhere. */
const command = resolve(process.env.KICKPANEL_COMMAND ?? 'bin/kickpanel');

export interface RunningProcess {
  url: string;
  pid: number;
  /** From the start of the process until it says that it listens. */
  startMs: number;
  /** As the power does it: no time to finish anything. */
  kill(): Promise<void>;
  /** As a person does it. @returns the exit status */
  stop(): Promise<number | null>;
}

async function ended(child: ChildProcess): Promise<number | null> {
  if (child.exitCode !== null || child.signalCode !== null) return child.exitCode;
  const [status] = (await once(child, 'exit')) as [number | null];
  return status;
}

/** Starts the server on a free port over `dataFolder`; throws with what it said if it does not come up. */
export async function startProcess(dataFolder: string): Promise<RunningProcess> {
  const begun = performance.now();
  const child = spawn(process.execPath, [command, 'serve', '--port', '0', '--json', '--data', dataFolder], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  let complained = '';
  child.stderr.on('data', (piece) => {
    complained += piece;
  });
  const line = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (piece) => {
      said += piece;
      if (said.includes('\n')) resolve(said);
    });
    child.once('exit', () => reject(new Error(`the server did not start: ${said}${complained}`)));
  });
  const { url } = JSON.parse(line) as { url?: string };
  if (url === undefined) throw new Error(`the server did not start: ${line}`);
  return {
    url: url.replace(/\/$/, ''),
    pid: child.pid as number,
    startMs: performance.now() - begun,
    async kill() {
      child.kill('SIGKILL');
      await ended(child);
    },
    async stop() {
      child.kill('SIGTERM');
      return ended(child);
    },
  };
}
