// The way of kept wishes to the shop: one after the other, each with what its author had seen, contradictions told.
import type { Command } from '../../job/commands/commands.ts';
import { contradicted } from '../../job/contradictions.ts';
import { contradictionNote } from '../../job/open-contradictions.ts';
import type { JobView, ShopApi } from '../api-client.ts';
import type { KeptWish } from './kept-wish.ts';

/** Sends one wish and answers with the job as it then stands. Sending it again changes nothing. */
export async function sendWish(api: ShopApi, kept: KeptWish): Promise<JobView> {
  const { id, job, who, when, wish, seen, noteId } = kept;
  const { job: now } = await api.job(job);
  const told = contradicted(now, wish, seen, { who, when });
  const note: Command = { command: 'addNote', text: told.join(' '), about: contradictionNote };
  return api.append(job, who, [
    { id, when, seen: seen.parts, wish },
    ...(told.length === 0 ? [] : [{ id: noteId, wish: note }]),
  ]);
}
