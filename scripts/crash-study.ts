// Kills the server 200 times in the middle of appends and uploads: what was acknowledged must be there, whole, each time.
// Call: npx tsx scripts/crash-study.ts [KILLS] [SEED]
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crashRounds } from '../test/crash/crash-rounds.ts';

const kills = Number(process.argv[2] ?? 200);
const seed = Number(process.argv[3] ?? 1);
const folder = mkdtempSync(join(tmpdir(), 'kickpanel-crash-'));
let complaints = 0;
try {
  const tally = await crashRounds(folder, {
    kills,
    seed,
    complain(what) {
      complaints++;
      process.stdout.write(`\n${what}\n`);
    },
    onRound: (n) => process.stdout.write(`\r${n} kills`),
  });
  const starts = tally.startMs.sort((a, b) => a - b);
  process.stdout.write(
    `\n${tally.kills} kills, seed ${seed}: ${tally.entries} entries and ${tally.recordings} recordings acknowledged, ` +
      `${tally.interrupted} entries under way when killed, ${complaints} complaints\n` +
      `starts: median ${starts[starts.length >> 1].toFixed(0)} ms, longest ${starts[starts.length - 1].toFixed(0)} ms\n`,
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = complaints > 0 ? 1 : 0;
