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
const built = spawnSync(process.execPath, [vite, 'build'], { cwd: root, stdio: 'inherit' });
process.exit(built.status ?? 1);
