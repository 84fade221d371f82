// Ten minutes of 96 kHz stereo, read: peak memory of the whole command and its time. Run: npx tsx bench/memory.ts
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TrackDescription } from '../src/signals/track.ts';
import { designTrack } from '../src/signals/track-design/design-track.ts';
import type { TrackRequest } from '../src/signals/track-design/request.ts';
import { usedBy } from './command.ts';
import { table } from './figures.ts';
import { writeLongRecording } from './long-recording.ts';

const LIMIT_MB = 400;
const LONG_S = 600;

function trackFor(wish: Partial<TrackRequest>): TrackDescription {
  const made = designTrack({ kind: 'sweep', rateHz: 96_000, side: 'left', fromHz: 20, toHz: 20_000, ...wish });
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '));
  return made.value;
}

const cases: { name: string; wish: Partial<TrackRequest>; startS: number }[] = [
  { name: '4 sweeps of 20 s', wish: { stimulusS: 20, repeats: 4 }, startS: 100 },
  { name: '24 sweeps of 20 s', wish: { stimulusS: 20, repeats: 24 }, startS: 5 },
  { name: '4 sweeps of 30 s, no markers', wish: { stimulusS: 30, repeats: 4, markerSide: 'none' }, startS: 100 },
  { name: 'one sweep of 4 s', wish: { stimulusS: 4 }, startS: 300 },
  { name: 'one sweep of 4 s, no markers', wish: { stimulusS: 4, markerSide: 'none' }, startS: 300 },
];

const folder = mkdtempSync(join(tmpdir(), 'kickpanel-memory-'));
const rows = [['10 min of 96 kHz stereo, 24 bit', 'peak', 'wall', 'CPU', 'verdict']];
let over = 0;
try {
  for (const { name, wish, startS } of cases) {
    if (process.argv[2] && !name.includes(process.argv[2])) continue;
    const track = trackFor(wish);
    const wav = join(folder, 'take.wav');
    const description = join(folder, 'take.track.json');
    writeFileSync(description, JSON.stringify(track));
    writeLongRecording(wav, track, { startS, durationS: LONG_S });
    const used = usedBy(['read', wav, '--track', description, '--json']);
    const { quality } = JSON.parse(used.output) as { quality: { verdict: string } };
    if (used.peakMb > LIMIT_MB) over++;
    rows.push([
      name,
      `${used.peakMb.toFixed(0)} MB`,
      `${(used.wallMs / 1000).toFixed(1)} s`,
      `${(used.cpuMs / 1000).toFixed(1)} s`,
      quality.verdict,
    ]);
    process.stderr.write(`${rows[rows.length - 1].join('  ')}\n`);
  }
} finally {
  rmSync(folder, { recursive: true });
}
process.stdout.write(`${table(rows)}\n\nload ${loadavg()[0].toFixed(1)}, limit ${LIMIT_MB} MB\n`);
process.exitCode = over > 0 ? 1 : 0;
