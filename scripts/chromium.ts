// The browser that the tests of the page look at it with. Run as a script it is put there if it is missing.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const usualPlaces = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

/** What to do where none is: the tests of the page fail with this sentence, they are never left out. */
export const howToGetChromium =
  'There is no Chromium, so the page cannot be tested. Install it ("sudo apt-get install chromium" on Debian) or name one in KICKPANEL_CHROMIUM.';

/** Path of the installed browser; null where there is none. */
export function installedChromium(): string | null {
  const named = process.env.KICKPANEL_CHROMIUM;
  if (named !== undefined && named !== '') return existsSync(named) ? named : null;
  return usualPlaces.find((path) => existsSync(path)) ?? null;
}

/** Installs it where that needs nobody's password: as root on Debian. */
function install(): void {
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return;
  process.stdout.write('Installing Chromium, with which the page is tested.\n');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const call of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
    spawnSync('apt-get', ['-q', ...call], { stdio: ['ignore', 'ignore', 'inherit'], env, timeout: 300_000 });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  if (installedChromium() === null && !process.env.KICKPANEL_CHROMIUM) install();
  // The other tests are worth running without it, so this is no reason to stop here.
  if (installedChromium() === null) process.stderr.write(`${howToGetChromium}\n`);
}
