// `serve`: the app on this computer, until it is stopped.
import { dataFolderFor } from '../../store/data-folder.ts';
import type { Command } from '../command.ts';
import { numberValue } from '../option-values.ts';

/** Where the app is found unless told otherwise. */
const usualPort = 4870;

/** Ends when the person or the system says so: what is being written is finished, then everything is closed. */
function stopWhenTold(stop: () => Promise<void>): void {
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.once(signal, () => {
      stop().then(
        () => process.exit(0),
        () => process.exit(3),
      );
    });
  }
}

function sayFault(error: unknown): void {
  const text = error instanceof Error ? (process.env.KICKPANEL_DEBUG ? error.stack : error.message) : String(error);
  process.stderr.write(`kickpanel: a fault of ours: ${text}\n`);
}

export const command: Command = {
  name: 'serve',
  summary: 'the app in a browser on this computer, with its jobs in one data folder',
  usage: 'serve [--port N] [--data DIR]',
  details:
    'Listens on this computer only and asks nobody outside. With --json the one object is printed once it listens. Ctrl-C ends it.',
  options: [
    { name: 'port', value: 'N', meaning: 'where it listens, 0 to 65535; 0 takes any that is free', default: '4870' },
    {
      name: 'data',
      value: 'DIR',
      meaning: 'the folder that holds the jobs',
      default: 'KICKPANEL_DATA, else Kickpanel in your home',
    },
  ],
  example: 'kickpanel serve --port 4870 --data ./jobs',
  async run({ operands, given }) {
    const text = given('port');
    const port =
      text === undefined
        ? { ok: true as const, value: usualPort }
        : numberValue('port', text, { min: 0, max: 65_535, whole: true });
    if (!port.ok) return { status: 2, issues: port.issues };
    if (operands.length > 0) {
      const mend = 'Give the folder as --data DIR.';
      return {
        status: 2,
        issues: [{ code: 'too-many-arguments', message: 'serve takes options only.', where: operands[0], mend }],
      };
    }
    const dataFolder = dataFolderFor(given('data'), process.env);
    // Loaded only when it is to run: help must not wait for a server.
    const { startServer } = await import('../../server/start.ts');
    const started = await startServer({ port: port.value, dataFolder, onFault: sayFault });
    if (!started.ok) return { status: 2, issues: started.issues };
    const { url, stop } = started.value;
    stopWhenTold(stop);
    return {
      status: 0,
      answer: { schema: 'kickpanel.serving/1', url, port: started.value.port, dataFolder },
      text: () => `Kickpanel is at ${url}\nThe jobs are in ${dataFolder}\nCtrl-C ends it.\n`,
    };
  },
};
