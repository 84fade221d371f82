// The command `job`, called in this process in a folder of its own.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readCall } from '../../src/cli/arguments.ts';
import type { CommandOutcome } from '../../src/cli/command.ts';
import { command } from '../../src/cli/commands/job.ts';

// biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every form
type Answer = any;

export interface JobDesk {
  path(name: string): string;
  /** Writes a file and gives its path. */
  file(name: string, content: object | string): string;
  /** The outcome of `kickpanel job WORDS...`; its jobs are kept in the folder unless `--data` says otherwise. */
  job(...words: string[]): Promise<CommandOutcome>;
  /** The answer of a call that must succeed. */
  answer(...words: string[]): Promise<Answer>;
  /** The first code of a call that must be refused. */
  refusal(...words: string[]): Promise<string>;
  clear(): void;
}

export function jobDesk(): JobDesk {
  const folder = mkdtempSync(join(tmpdir(), 'job-'));
  const path = (name: string): string => join(folder, name);
  const job = async (...words: string[]): Promise<CommandOutcome> => {
    const own = words.includes('--data') ? [] : ['--data', path('data')];
    const call = readCall([...words, ...own], command);
    if (!call.ok) return { status: 2, issues: call.issues };
    const { operands, given } = call.value;
    return command.run({ operands, given: (option) => given.get(option), onProgress: () => {} });
  };
  return {
    path,
    file(name, content) {
      writeFileSync(path(name), typeof content === 'string' ? content : JSON.stringify(content));
      return path(name);
    },
    job,
    async answer(...words) {
      const outcome = await job(...words);
      if (outcome.status === 2) throw new Error(JSON.stringify(outcome.issues));
      return outcome.answer;
    },
    async refusal(...words) {
      const outcome = await job(...words);
      return outcome.status === 2 ? outcome.issues[0].code : 'not refused';
    },
    clear: () => rmSync(folder, { recursive: true, force: true }),
  };
}
