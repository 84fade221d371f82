// Builds the command before it is tested, unless what is there is newer than all that it is made of.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

function newestMs(path: string): number {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(0, ...readdirSync(path).map((name) => newestMs(join(path, name))));
}

export default function build(): void {
  const built = 'dist/cli/main.mjs';
  const newest = Math.max(...['src', 'package.json', 'vite.config.ts'].map(newestMs));
  if (existsSync(built) && statSync(built).mtimeMs > newest) return;
  const done = spawnSync(process.execPath, ['scripts/build.mjs'], { stdio: 'inherit' });
  if (done.status !== 0) throw new Error('the command line cannot be built');
}
