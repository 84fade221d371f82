// Clients that write without pause and remember what was acknowledged: the witnesses of a crash.
import { createHash } from 'node:crypto';
import { hash32 } from '../../src/base/random.ts';

/** What the server has promised to keep, and what was under way when it died. */
export interface Witness {
  jobs: Set<string>;
  /** By job, ids of the entries acknowledged. */
  entries: Map<string, Set<string>>;
  /** Hashes of recordings acknowledged. */
  recordings: Set<string>;
  /** Entries sent and not acknowledged, as they were sent: they are sent again. */
  open: Map<string, { job: string; body: string }>;
  track: string;
}

export function newWitness(): Witness {
  return { jobs: new Set(), entries: new Map(), recordings: new Set(), open: new Map(), track: '' };
}

/** A WAV file of 8-bit noise, chosen by its seed: `bytes` long, at least 45. */
export function noiseWav(seed: number, bytes: number): Uint8Array<ArrayBuffer> {
  const wav = new Uint8Array(bytes);
  const view = new DataView(wav.buffer);
  const name = (at: number, text: string) => {
    for (let n = 0; n < text.length; n++) wav[at + n] = text.charCodeAt(n);
  };
  name(0, 'RIFF');
  view.setUint32(4, bytes - 8, true);
  name(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, 48_000, true);
  view.setUint32(28, 48_000, true);
  view.setUint16(32, 1, true);
  view.setUint16(34, 8, true);
  name(36, 'data');
  view.setUint32(40, bytes - 44, true);
  for (let n = 44; n + 4 <= bytes; n += 4) view.setUint32(n, hash32(seed, n), true);
  return wav;
}

export const hashOfBytes = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

async function call(url: string, method: string, path: string, body: BodyInit, type: string): Promise<unknown> {
  const answer = await fetch(url + path, { method, body, headers: { 'content-type': type } });
  const said = (await answer.json()) as unknown;
  if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${JSON.stringify(said)}`);
  return said;
}

/** A call refused by the server is a fault of the test; one that broke off is what the test is about. */
const brokeOff = (error: unknown) => error instanceof TypeError;

/** Sends wishes to a job; what is acknowledged is remembered before anything else happens. */
export async function wish(
  url: string,
  witness: Witness,
  job: string,
  requests: { id: string; who: string; wish: object }[],
): Promise<void> {
  const body = JSON.stringify(witness.jobs.has(job) ? { requests } : { job, requests });
  for (const { id } of requests) witness.open.set(id, { job, body });
  const path = witness.jobs.has(job) ? `/api/jobs/${job}/entries` : '/api/jobs';
  await call(url, 'POST', path, body, 'application/json');
  witness.jobs.add(job);
  const known = witness.entries.get(job) ?? new Set();
  witness.entries.set(job, known);
  for (const { id } of requests) {
    known.add(id);
    witness.open.delete(id);
  }
}

/** The test track that every take claims to have been played. */
export async function sendTrack(url: string, witness: Witness): Promise<void> {
  const made = (await call(url, 'POST', '/api/tracks', '{"kind":"pair","rateHz":32000}', 'application/json')) as {
    sha256: string;
  };
  witness.track = made.sha256;
}

/** Sends again what was not acknowledged: it must be taken, whether it had been written or not. */
export async function sendAgain(url: string, witness: Witness): Promise<void> {
  for (const [id, { job, body }] of [...witness.open]) {
    const { requests } = JSON.parse(body) as { requests: { id: string; who: string; wish: object }[] };
    if (witness.open.has(id)) await wish(url, witness, job, requests);
  }
}

/**
 * Notes, undos and takes with their recordings, until the server is gone.
 *
 * @param seed chooses everything; another for each client and round
 */
export async function writeUntilGone(url: string, witness: Witness, seed: number): Promise<void> {
  const job = `job-${hash32(seed, 0) % 4}`;
  let n = 0;
  const draw = (below: number) => hash32(seed, ++n) % below;
  const id = () => `e-${seed}-${++n}`;
  try {
    if (!witness.jobs.has(job)) {
      const opening = { id: `${job}-opened`, who: 'Ann', wish: { command: 'createJob', name: job } };
      await wish(url, witness, job, [opening]);
    }
    for (;;) {
      const kind = draw(4);
      if (kind < 2) {
        const count = 1 + draw(3);
        const notes = Array.from({ length: count }, () => ({
          id: id(),
          who: 'Ann',
          wish: { command: 'addNote', text: `note ${n} ${'x'.repeat(draw(2000))}` },
        }));
        await wish(url, witness, job, notes);
        if (draw(5) === 0) {
          await wish(url, witness, job, [{ id: id(), who: 'Ann', wish: { command: 'undo', entry: notes[0].id } }]);
        }
      } else {
        const wav = noiseWav(hash32(seed, ++n), 2000 + draw(600_000));
        const { sha256, bytes } = (await call(url, 'PUT', '/api/recordings', wav, 'audio/wav')) as {
          sha256: string;
          bytes: number;
        };
        if (sha256 !== hashOfBytes(wav)) throw new Error(`the server hashed ${sha256}`);
        witness.recordings.add(sha256);
        const take = { command: 'recordTake', name: `take ${n}`, recording: sha256, bytes, track: witness.track };
        await wish(url, witness, job, [{ id: id(), who: 'Ann', wish: take }]);
      }
    }
  } catch (error) {
    if (!brokeOff(error)) throw error;
  }
}
