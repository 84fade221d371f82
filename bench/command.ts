// The built command as a person calls it, timed from outside.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const own = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export interface CommandUse {
  wallMs: number;
  cpuMs: number;
  peakMb: number;
  status: number;
  output: string;
}

/** The command of this checkout, or of the one that KICKPANEL_BENCH_ROOT names: to compare two. */
const root = process.env.KICKPANEL_BENCH_ROOT ?? own('..');

/** Wall time of `kickpanel` as built into dist/, ms, with nothing watching from inside: the watch costs a module more. */
export function wallMsOf(words: string[]): number {
  const began = performance.now();
  const ran = spawnSync(process.execPath, [join(root, 'bin/kickpanel'), ...words], { maxBuffer: 1 << 28 });
  const wallMs = performance.now() - began;
  if (ran.status !== 0) throw new Error(`kickpanel ended with ${ran.status}: ${ran.stderr}`);
  return wallMs;
}

/** Runs the same with its memory and its time on the processor watched. */
export function usedBy(words: string[]): CommandUse {
  if (!existsSync(join(root, 'dist/cli/main.mjs')))
    throw new Error('dist/ is missing: "node scripts/build.mjs" makes it');
  const folder = mkdtempSync(join(tmpdir(), 'kickpanel-bench-'));
  const file = join(folder, 'used.json');
  const began = performance.now();
  const ran = spawnSync(process.execPath, ['--import', own('peak-memory.mjs'), join(root, 'bin/kickpanel'), ...words], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    env: { ...process.env, KICKPANEL_BENCH_FILE: file },
  });
  const wallMs = performance.now() - began;
  if (ran.status !== 0 && ran.status !== 1) throw new Error(`kickpanel ended with ${ran.status}: ${ran.stderr}`);
  const used = JSON.parse(readFileSync(file, 'utf8')) as { peakMb: number; cpuMs: number };
  rmSync(folder, { recursive: true });
  return { ...used, wallMs, status: ran.status, output: ran.stdout };
}
