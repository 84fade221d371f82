// A server killed again and again in the middle of its work, and what must hold each time it comes back.
import { createHash } from 'node:crypto';
import { createReadStream, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { hash32, uniform } from '../../src/base/random.ts';
import { newWitness, sendAgain, sendTrack, type Witness, writeUntilGone } from './busy-clients.ts';
import { startProcess } from './running-server.ts';

export interface CrashTally {
  kills: number;
  entries: number;
  recordings: number;
  /** Entries that were under way when the server died. */
  interrupted: number;
  startMs: number[];
}

const clients = 4;

async function json<Value>(url: string): Promise<Value> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`${url}: ${answer.status} ${await answer.text()}`);
  return (await answer.json()) as Value;
}

async function fileHash(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of createReadStream(path)) hash.update(piece as Buffer);
  return hash.digest('hex');
}

/** Every acknowledged entry once, and every journal whole. */
async function checkJournals(url: string, witness: Witness, complain: (what: string) => void): Promise<void> {
  for (const job of witness.jobs) {
    const { entries } = await json<{ entries: { id: string }[] }>(`${url}/api/jobs/${job}/entries`);
    const there = new Set(entries.map(({ id }) => id));
    if (there.size !== entries.length) complain(`${job} holds an entry twice`);
    for (const id of witness.entries.get(job) ?? []) if (!there.has(id)) complain(`entry ${id} of ${job} is lost`);
    const proof = await json<{ whole: boolean; faults: object[] }>(`${url}/api/jobs/${job}/verify`);
    if (!proof.whole) complain(`${job} is not whole: ${JSON.stringify(proof.faults.slice(0, 3))}`);
  }
}

/** Every file is what its name says, every acknowledged one is there, and nothing half arrived lies about. */
async function checkFiles(
  folder: string,
  witness: Witness,
  proved: Set<string>,
  complain: (what: string) => void,
): Promise<void> {
  const there = new Set<string>();
  for (const part of readdirSync(join(folder, 'recordings'))) {
    for (const name of readdirSync(join(folder, 'recordings', part))) {
      const sha256 = name.replace(/\.wav$/, '');
      there.add(sha256);
      if (proved.has(sha256)) continue;
      if ((await fileHash(join(folder, 'recordings', part, name))) === sha256) proved.add(sha256);
      else complain(`recording ${name} is not what its name says`);
    }
  }
  for (const sha256 of witness.recordings) if (!there.has(sha256)) complain(`recording ${sha256} is lost`);
  const half = readdirSync(join(folder, 'incoming'));
  if (half.length > 0) complain(`left over: ${half.join(', ')}`);
}

/**
 * Kills the server `kills` times, each at a moment chosen by the seed, and checks it after each start.
 *
 * @param complain is told of everything that does not hold
 */
export async function crashRounds(
  folder: string,
  options: { kills: number; seed: number; complain: (what: string) => void; onRound?: (n: number) => void },
): Promise<CrashTally> {
  const { kills, seed, complain } = options;
  const witness = newWitness();
  const proved = new Set<string>();
  const tally: CrashTally = { kills, entries: 0, recordings: 0, interrupted: 0, startMs: [] };
  for (let round = 0; round <= kills; round++) {
    const server = await startProcess(folder);
    tally.startMs.push(server.startMs);
    await checkFiles(folder, witness, proved, complain);
    await checkJournals(server.url, witness, complain);
    tally.interrupted += witness.open.size;
    await sendAgain(server.url, witness);
    if (witness.track === '') await sendTrack(server.url, witness);
    options.onRound?.(round);
    if (round === kills) {
      await checkJournals(server.url, witness, complain);
      const status = await server.stop();
      if (status !== 0) complain(`the last stop ended with ${status}`);
      break;
    }
    const writers = Array.from({ length: clients }, (_, client) =>
      writeUntilGone(server.url, witness, hash32(seed, round * clients + client)),
    );
    await sleep(20 + 600 * uniform(seed ^ 0x5eed, round));
    await server.kill();
    await Promise.all(writers);
  }
  tally.entries = [...witness.entries.values()].reduce((sum, ids) => sum + ids.size, 0);
  tally.recordings = witness.recordings.size;
  return tally;
}
