// What `npm start` shows: the commands there are, and one of them at work on a recording that comes with the project.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

function kickpanel(...words: string[]): void {
  process.stdout.write(`\n$ bin/kickpanel ${words.join(' ')}\n\n`);
  spawnSync(process.execPath, ['bin/kickpanel', ...words], { stdio: 'inherit' });
}

kickpanel('--help');
if (existsSync('examples/door.wav')) kickpanel('read', 'examples/door.wav', '--track', 'examples/door.track.json');
