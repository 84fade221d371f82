// What `npm start` shows: the commands there are, and one of them at work on a recording that comes with the project.
import { spawnSync } from 'node:child_process';

function kickpanel(...words: string[]): void {
  process.stdout.write(`\n$ bin/kickpanel ${words.join(' ')}\n\n`);
  const { status } = spawnSync(process.execPath, ['bin/kickpanel', ...words], { stdio: 'inherit' });
  if (status !== 0) process.exitCode = status ?? 1;
}

kickpanel('--help');
kickpanel('read', 'examples/door.wav', '--track', 'examples/door.track.json');
