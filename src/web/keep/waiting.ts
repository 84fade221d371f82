// Wishes that wait here for the shop: what they are, and when there are more or fewer of them.
import { useSyncExternalStore } from 'react';
import { forgetWish, type KeptWish, keepWishes, keptWishes } from './kept-wish.ts';

let wishes: readonly KeptWish[] = [];
const listeners = new Set<() => void>();

/** Calls back when what waits has changed; the answer ends it. */
export function onWaiting(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Looks again at what this browser keeps. */
export async function lookAtWishes(): Promise<void> {
  const now = await keptWishes();
  if (now.length === 0 && wishes.length === 0) return;
  wishes = now;
  for (const listener of listeners) listener();
}

export const waitingWishes = (): readonly KeptWish[] => wishes.filter(({ state }) => state === 'waiting');

/** Whether something of a job waits here: what is wished then goes behind it, so that the order stays. */
export const hasWaiting = (job: string): boolean => waitingWishes().some((kept) => kept.job === job);

/** Wishes that the shop does not have: those on their way, and those that it refused. */
export const useKeptWishes = (): readonly KeptWish[] => useSyncExternalStore(onWaiting, () => wishes);

/** Keeps wishes until the shop answers. */
export async function letWait(kept: readonly KeptWish[]): Promise<void> {
  await keepWishes(kept);
  await lookAtWishes();
}

/** Takes away a wish that the shop refused, once somebody has seen why. */
export async function dropWish(id: string): Promise<void> {
  await forgetWish(id);
  await lookAtWishes();
}
