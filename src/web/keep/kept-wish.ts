// A wish that this browser keeps while the shop does not answer: with its id, its time, and what its author had seen.
import type { Command } from '../../job/commands/commands.ts';
import type { SeenThings } from '../../job/contradictions.ts';
import { answer, stores, transact } from './database.ts';

export interface KeptWish {
  /** Also the id of the entry, so that sending it again changes nothing. */
  id: string;
  job: string;
  who: string;
  /** When it was wished, not when it is sent. */
  when: string;
  /** Wishes go in the order in which they were made. */
  order: number;
  wish: Command;
  seen: SeenThings;
  state: 'waiting' | 'refused';
  /** Of the note that tells of a contradiction; made once. */
  noteId: string;
  refusal?: { message: string; mend?: string | undefined };
}

export async function keptWishes(): Promise<KeptWish[]> {
  const all = await transact([stores.wishes], 'readonly', (t) =>
    answer<KeptWish[]>(t.objectStore(stores.wishes).getAll()),
  );
  return all.sort((a, b) => a.order - b.order);
}

export async function keepWishes(wishes: readonly KeptWish[]): Promise<void> {
  await transact([stores.wishes], 'readwrite', async (t) => {
    for (const wish of wishes) await answer(t.objectStore(stores.wishes).put(wish));
  });
}

export async function forgetWish(id: string): Promise<void> {
  await transact([stores.wishes], 'readwrite', (t) => answer(t.objectStore(stores.wishes).delete(id)));
}
