// A take that this browser keeps: what it is, and its sound in pieces, until the server has it.
import type { Command } from '../../job/commands/commands.ts';
import type { TrackDescription } from '../../signals/track.ts';
import { type WavLayout, wavHeader, wavTail } from '../../signals/wav/wav-header.ts';
import { answer, stores, transact } from './database.ts';

type RecordTake = Extract<Command, { command: 'recordTake' }>;

/** Where a kept take stands on its way. */
export type KeptState =
  /** Sound still comes in. */
  | 'recording'
  /** Whole, and waits for the server. */
  | 'waiting'
  /** The server does not take it; a person must say what to do. */
  | 'refused';

export interface KeptTake {
  /** Also the id of the take in the journal, so that sending it again changes nothing. */
  id: string;
  job: string;
  who: string;
  startedMs: number;
  state: KeptState;
  /** Sound made here; a dropped file is kept as it is instead. */
  sound: { kind: 'captured'; rateHz: number; channels: number } | { kind: 'file'; name: string };
  /** Samples per channel kept so far, for captured sound. */
  frames: number;
  pieces: number;
  bytes: number;
  track: TrackDescription;
  /** What goes into the journal, but for what only the server knows. */
  take: Pick<RecordTake, 'name' | 'microphone' | 'side' | 'place' | 'covers' | 'level' | 'input'>;
  /** Why the sound ended before the track did, in a sentence. */
  broken?: string;
  /** Ids of the entries, made once. */
  entryIds: { track: string; take: string; note: string };
  refusal?: { message: string; mend?: string | undefined };
}

const pieceKey = (id: string, index: number) => [id, index];

export function keptTakes(): Promise<KeptTake[]> {
  return transact([stores.takes], 'readonly', (t) => answer<KeptTake[]>(t.objectStore(stores.takes).getAll()));
}

export async function keepTake(take: KeptTake): Promise<void> {
  await transact([stores.takes], 'readwrite', (t) => answer(t.objectStore(stores.takes).put(take)));
}

/** Changes what is known of a take; nothing if it is gone. */
export async function changeKeptTake(id: string, change: Partial<KeptTake>): Promise<KeptTake | undefined> {
  return transact([stores.takes], 'readwrite', async (t) => {
    const store = t.objectStore(stores.takes);
    const known = await answer<KeptTake | undefined>(store.get(id));
    if (!known) return undefined;
    const changed = { ...known, ...change };
    await answer(store.put(changed));
    return changed;
  });
}

/** Adds a piece of sound and what it makes of the take, both or neither. */
export async function keepPiece(take: KeptTake, piece: Uint8Array<ArrayBuffer>, frames: number): Promise<KeptTake> {
  return transact([stores.takes, stores.pieces], 'readwrite', async (t) => {
    const changed = {
      ...take,
      frames: take.frames + frames,
      pieces: take.pieces + 1,
      bytes: take.bytes + piece.byteLength,
    };
    t.objectStore(stores.pieces).put(piece, pieceKey(take.id, take.pieces));
    await answer(t.objectStore(stores.takes).put(changed));
    return changed;
  });
}

export async function forgetTake(id: string): Promise<void> {
  await transact([stores.takes, stores.pieces], 'readwrite', async (t) => {
    t.objectStore(stores.pieces).delete(IDBKeyRange.bound(pieceKey(id, 0), pieceKey(id, Number.MAX_SAFE_INTEGER)));
    await answer(t.objectStore(stores.takes).delete(id));
  });
}

/** The whole file of a take, as it goes to the server or to a disk. */
export async function keptFile(take: KeptTake): Promise<Blob> {
  const pieces = await transact([stores.pieces], 'readonly', async (t) => {
    const store = t.objectStore(stores.pieces);
    const found: Uint8Array<ArrayBuffer>[] = [];
    for (let index = 0; index < take.pieces; index++) found.push(await answer(store.get(pieceKey(take.id, index))));
    return found;
  });
  if (pieces.some((piece) => piece === undefined))
    throw new Error('a piece of the recording is missing in this browser');
  if (take.sound.kind === 'file') return new Blob(pieces, { type: 'audio/wav' });
  const layout: WavLayout = {
    channels: take.sound.channels,
    rateHz: take.sound.rateHz,
    format: '24',
    frames: take.frames,
  };
  const header = wavHeader(layout) as Uint8Array<ArrayBuffer>;
  const tail = wavTail(layout) as Uint8Array<ArrayBuffer>;
  return new Blob([header, ...pieces, tail], { type: 'audio/wav' });
}
