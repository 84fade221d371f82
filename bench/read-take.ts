// How long the reading of a ten-second take lasts: in the process, as a whole command, and against the same steps in
// NumPy and SciPy on one thread. Run: npx tsx bench/read-take.ts [rounds]
import { mkdtempSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { readTake } from '../src/measurement/read-take.ts';
import type { Reading } from '../src/measurement/reading.ts';
import { readWav } from '../src/signals/wav/read-wav.ts';
import { fileSource } from '../src/store/file-source.ts';
import { type CommandUse, usedBy, wallMsOf } from './command.ts';
import { ratiosOf, spreadOf, table, told } from './figures.ts';
import { peerRun, peerVersions } from './peer.ts';
import { stageNames, stageTimes } from './stages.ts';
import { type TakeFiles, tenSecondTake } from './ten-second-take.ts';

interface PeerAnswer {
  stages: Record<string, number[]>;
  total: number[];
  answer: { arrivalS: number; driftPpm: number; polarity: number; levelDb: number[] };
}

const RUNS = 3;
const rounds = Number(process.argv[2] ?? 7);

/** Reads the file anew, as the command does. */
function timedReading({ wav, track }: TakeFiles): { reading: Reading; ms: number } {
  const began = performance.now();
  const source = fileSource(wav);
  const opened = readWav(source);
  if (!opened.ok) throw new Error('the take that was just written cannot be read');
  const { reading } = readTake(opened.value.recording, track);
  source.close();
  return { reading, ms: performance.now() - began };
}

function timedStages({ wav, track }: TakeFiles): Record<string, number> {
  const source = fileSource(wav);
  const opened = readWav(source);
  if (!opened.ok) throw new Error('the take that was just written cannot be read');
  const times = stageTimes(opened.value.recording, track);
  source.close();
  return times;
}

/** Both must have found the same, or the times compare nothing. */
function requireSameAnswer(reading: Reading, { answer }: PeerAnswer): void {
  const away = Math.abs((reading.arrivalS ?? Number.NaN) - answer.arrivalS);
  const apart = (reading.response?.levelDb ?? []).map((level, i) =>
    Math.abs((level ?? Number.NaN) - answer.levelDb[i]),
  );
  const worstDb = Math.max(...apart.filter((_, i) => reading.response?.valid[i]));
  const drift = Math.abs((reading.quality.driftPpm ?? Number.NaN) - answer.driftPpm);
  if (!(away < 1e-6 && worstDb < 0.001 && drift < 0.01 && reading.polarity?.sign === answer.polarity)) {
    throw new Error(`the two do not do the same: arrival ${away} s, level ${worstDb} dB, drift ${drift} ppm apart`);
  }
}

const folder = mkdtempSync(join(tmpdir(), 'kickpanel-speed-'));
try {
  const files = tenSecondTake(folder);
  const versions = peerVersions();
  const cold = timedReading(files).ms;
  for (let i = 0; i < 10; i++) timedReading(files);
  const own: number[] = [];
  const peer: number[] = [];
  const peerWhole: number[] = [];
  const wall: number[] = [];
  const commands: CommandUse[] = [];
  const ownStages: Record<string, number[]> = Object.fromEntries(stageNames.map((name) => [name, []]));
  const peerStages: Record<string, number[]> = Object.fromEntries(stageNames.map((name) => [name, []]));
  for (let round = 0; round < rounds; round++) {
    for (let i = 0; i < RUNS; i++) {
      const { reading, ms } = timedReading(files);
      own.push(ms);
      const stages = timedStages(files);
      for (const name of stageNames) ownStages[name].push(stages[name]);
      if (i < RUNS - 1 || !versions) continue;
      const { answer } = peerRun<PeerAnswer>('read_take.py', [files.wav, files.description, String(RUNS + 1)]);
      requireSameAnswer(reading, answer);
      // The first run fills caches, as ours have been filled.
      peer.push(...answer.total.slice(1));
      for (const name of stageNames) peerStages[name].push(...answer.stages[name].slice(1));
    }
    const words = ['read', files.wav, '--track', files.description];
    wall.push(wallMsOf(words));
    commands.push(usedBy(words));
    if (versions) peerWhole.push(peerRun('read_take.py', [files.wav, files.description, '1']).wallMs);
  }
  const rows = [
    ['ten seconds at 48 kHz', 'Kickpanel', 'NumPy/SciPy, one thread', 'Kickpanel / NumPy'],
    [
      'in the process',
      told(spreadOf(own), 'ms'),
      versions ? told(spreadOf(peer), 'ms') : '-',
      versions ? told(ratiosOf(own, peer), '') : '-',
    ],
    [
      'whole command',
      told(spreadOf(wall), 'ms'),
      versions ? told(spreadOf(peerWhole), 'ms') : '-',
      versions ? told(ratiosOf(wall, peerWhole), '') : '-',
    ],
    ...stageNames.map((name) => [
      name,
      told(spreadOf(ownStages[name]), 'ms'),
      versions ? told(spreadOf(peerStages[name]), 'ms') : '-',
      versions ? told(ratiosOf(ownStages[name], peerStages[name]), '') : '-',
    ]),
  ];
  process.stdout.write(`${table(rows)}\n
first reading in a fresh process: ${cold.toFixed(0)} ms
whole command: CPU ${told(spreadOf(commands.map(({ cpuMs }) => cpuMs)), 'ms')}, peak ${told(spreadOf(commands.map(({ peakMb }) => peakMb)), 'MB')}
node ${process.version}${versions ? `, ${versions}` : ''}, load ${loadavg()[0].toFixed(1)}, ${rounds} rounds of ${RUNS}
`);
  const slow = spreadOf(wall).median >= 1000 ? 1 : 0;
  const behind = versions && ratiosOf(own, peer).median >= 1 ? 1 : 0;
  process.exitCode = slow + behind;
} finally {
  rmSync(folder, { recursive: true });
}
