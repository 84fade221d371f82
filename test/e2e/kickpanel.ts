// The real command in a fresh folder, as a person or a script meets it.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const command = resolve('bin/kickpanel');

interface Ended {
  status: number | null;
  stdout: string;
  stderr: string;
}

/** A fresh folder, and the command in it. */
export interface Workbench {
  path: (name: string) => string;
  write: (name: string, content: string | Uint8Array) => string;
  /** Runs `kickpanel words...` in the folder. */
  kickpanel: (...words: string[]) => Ended;
  /** The same with other variables in its environment. */
  kickpanelIn: (environment: Record<string, string>, ...words: string[]) => Ended;
  clear: () => void;
}

export function workbench(): Workbench {
  const folder = mkdtempSync(join(tmpdir(), 'kickpanel-'));
  const path = (name: string) => join(folder, name);
  const kickpanelIn = (environment: Record<string, string>, ...words: string[]): Ended => {
    const plain = { PATH: process.env.PATH, HOME: folder, ...environment };
    const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...words], {
      cwd: folder,
      env: plain,
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    return { status, stdout, stderr };
  };
  return {
    path,
    write(name, content) {
      writeFileSync(path(name), content);
      return path(name);
    },
    kickpanel: (...words) => kickpanelIn({}, ...words),
    kickpanelIn,
    clear: () => rmSync(folder, { recursive: true, force: true }),
  };
}
