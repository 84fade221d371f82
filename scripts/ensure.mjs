// Makes sure the dependencies are installed before anything else runs. Only node: imports, because nothing is there yet.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';

const [major] = process.versions.node.split('.').map(Number);
if (major < 20) {
  process.stderr.write(`Kickpanel needs Node 20 or newer; this is ${process.version}.\n`);
  process.exit(1);
}
const stamp = 'node_modules/.package-lock.json';
const fresh = existsSync(stamp) && statSync(stamp).mtimeMs >= statSync('package-lock.json').mtimeMs;
if (!fresh) {
  const installed = spawnSync('npm', ['ci', '--no-audit', '--no-fund'], {
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  process.exit(installed.status ?? 1);
}
