// Builds dist/ after an install. Plain JavaScript, because it also runs where the tools for TypeScript were left out.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const vite = fileURLToPath(new URL('../node_modules/vite/bin/vite.js', import.meta.url));
if (!existsSync(vite)) {
  process.stderr.write(
    'The build tools are not installed, so dist/ is left as it is. "npm ci" without --omit=dev builds it.\n',
  );
  process.exit(0);
}
// Whoever calls, a test for one, what is built is what is handed out.
const env = { ...process.env, NODE_ENV: 'production' };
// The command line and the reading worker first, then the page that `serve` hands out.
for (const config of ['vite.config.ts', 'vite.web.config.ts']) {
  const built = spawnSync(process.execPath, [vite, 'build', '--config', config], {
    cwd: root,
    env,
    stdio: 'inherit',
  });
  if (built.status !== 0) process.exit(built.status ?? 1);
}
