// Recordings whose page went away: reloaded, closed, crashed, or the computer went off. What was kept of them is theirs.
import { changeKeptTake, forgetTake, type KeptTake, keptTakes } from './kept-take.ts';

const lockName = (id: string) => `kickpanel.take.${id}`;

/** Holds a take as this page's own until `ended`; nobody else takes it for left behind. */
export function holdTake(id: string, ended: Promise<unknown>): void {
  void navigator.locks?.request(lockName(id), () => ended.catch(() => {}));
}

async function isHeld(id: string): Promise<boolean> {
  const state = await navigator.locks?.query();
  return state?.held?.some(({ name }) => name === lockName(id)) ?? false;
}

function secondsOf(take: KeptTake): string {
  if (take.sound.kind !== 'captured') return '';
  return `${(take.frames / take.sound.rateHz).toFixed(1)} s`;
}

/** Makes whole takes of recordings that no page works on any more. */
export async function adoptOrphans(): Promise<void> {
  for (const take of await keptTakes()) {
    if (take.state !== 'recording' || (await isHeld(take.id))) continue;
    if (take.pieces === 0) {
      await forgetTake(take.id);
      continue;
    }
    const broken = take.broken ?? `The recording broke off after ${secondsOf(take)}: its page was closed or reloaded.`;
    await changeKeptTake(take.id, { state: 'waiting', broken });
  }
}
