// What `npm start` does: the app for the browser, after a word on what the command line does without one.
import { spawn } from 'node:child_process';

process.stdout.write(
  [
    '',
    'The command line does the same without a browser: bin/kickpanel --help lists what it can do,',
    'and bin/kickpanel read examples/door.wav --track examples/door.track.json reads a first recording.',
    '',
    '',
  ].join('\n'),
);
const app = spawn(process.execPath, ['bin/kickpanel', 'serve', ...process.argv.slice(2)], { stdio: 'inherit' });
// A terminal tells both; whoever tells this one alone means the app.
process.on('SIGINT', () => {});
for (const signal of ['SIGTERM', 'SIGHUP'] as const) process.on(signal, () => app.kill(signal));
app.on('exit', (status) => {
  process.exitCode = status ?? 1;
});
