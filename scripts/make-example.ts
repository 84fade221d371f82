// Makes the take in examples/: a door of a simulated car against the opposite tweeter, recorded by a plain recorder.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { carFromSeed } from '../src/practice/car-from-seed.ts';
import { renderTake } from '../src/practice/render-take.ts';
import { type TrackDescription, trackSchema } from '../src/signals/track.ts';
import { writeWav } from '../src/signals/wav/write-wav.ts';

/** The track as the command writes it; its sound is large and easily made again, so only the description is kept. */
function doorTrack(): { text: string; track: TrackDescription } {
  const folder = mkdtempSync(join(tmpdir(), 'kickpanel-example-'));
  const wav = join(folder, 'door.wav');
  const wishes = ['--side', 'left', '--from', '40', '--to', '8000', '--seconds', '3', '--level', '-12'];
  const made = spawnSync(process.execPath, ['bin/kickpanel', 'track', 'sweep', '--out', wav, ...wishes], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  if (made.status !== 0) throw new Error('the track could not be made; "npm ci" builds the command');
  const text = readFileSync(join(folder, 'door.track.json'), 'utf8');
  rmSync(folder, { recursive: true });
  return { text, track: trackSchema.parse(JSON.parse(text)) };
}

const seed = 1;
const { text, track } = doorTrack();
const take = renderTake({
  track,
  car: carFromSeed(seed, 'ordinary', { system: 'two-way' }),
  on: ['door-left', 'tweeter-right'],
  recorder: { bits: 16, driftPpm: 43, gainDb: 12 },
  seed,
  mode: 'nonlinear',
});
const { startS, driftPpm, stimuli } = take.truth;
const [{ arrivalS, polaritySign }] = stimuli;
writeFileSync('examples/door.track.json', text);
writeFileSync('examples/door.wav', writeWav({ channels: take.samples, rateHz: take.rateHz, format: '16' }));
writeFileSync('examples/door.truth.json', `${JSON.stringify({ startS, driftPpm, arrivalS, polaritySign }, null, 1)}\n`);
const peak = take.samples[0].reduce((most, value) => Math.max(most, Math.abs(value)), 0);
process.stdout.write(`examples/door.wav: peak ${(20 * Math.log10(peak)).toFixed(1)} dBFS\n`);
