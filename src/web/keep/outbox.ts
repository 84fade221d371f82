// Sends what this browser keeps to the shop, again and again until it is there. Every step may be repeated without harm.
import { useSyncExternalStore } from 'react';
import type { Command } from '../../job/commands/commands.ts';
import type { ShopApi } from '../api-client.ts';
import { learned, refresh } from '../shop/known-answers.ts';
import { noteAnswer, noteAway, noteSaved } from '../shop/saved-status.ts';
import { shopErrorFrom } from '../shop/shop-error.ts';
import { jobResource } from '../shop/use-job.ts';
import { changeKeptTake, forgetTake, type KeptTake, keptFile, keptTakes } from './kept-take.ts';
import { forgetWish, keepWishes, keptWishes } from './kept-wish.ts';
import { adoptOrphans } from './orphans.ts';
import { sendWish } from './send-wishes.ts';
import { lookAtWishes, onWaiting, waitingWishes } from './waiting.ts';

let takes: readonly KeptTake[] = [];
const listeners = new Set<() => void>();

/** Looks again at what this browser keeps, after something has changed it. */
export async function lookAtKept(): Promise<void> {
  takes = await keptTakes();
  await lookAtWishes();
  noteWaiting();
  for (const listener of listeners) listener();
}

function noteWaiting(): void {
  noteSaved({ waiting: takes.filter(({ state }) => state === 'waiting').length + waitingWishes().length });
}

/** Takes that the shop does not have yet. */
export function useKeptTakes(): readonly KeptTake[] {
  return useSyncExternalStore(subscribed, () => takes);
}

function subscribed(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Refusals that will not go away by waiting: the content itself is not taken. */
const lasting = new Set([400, 404, 409, 413, 415, 422]);

async function sendTake(api: ShopApi, kept: KeptTake): Promise<void> {
  const track = await api.keepTrack(kept.track);
  const recording = await api.keepRecording(await keptFile(kept));
  const view = await api.job(kept.job);
  const there = view.job.takes.some(({ take }) => take === kept.id);
  const wishes: { id: string; wish: Command }[] = [];
  if (!view.job.tracks.some(({ track: known }) => known === track.sha256)) {
    const { kind, durationS, code } = kept.track;
    const wish: Command = {
      command: 'keepTrack',
      track: track.sha256,
      kind,
      durationS,
      ...(code === undefined ? {} : { code }),
    };
    wishes.push({ id: kept.entryIds.track, wish });
  }
  if (!there) {
    const wish: Command = {
      command: 'recordTake',
      take: kept.id,
      ...kept.take,
      recording: recording.sha256,
      bytes: recording.bytes,
      track: track.sha256,
    };
    wishes.push({ id: kept.entryIds.take, wish });
    if (kept.broken !== undefined) {
      wishes.push({
        id: kept.entryIds.note,
        wish: { command: 'noteTake', take: kept.id, note: kept.broken, kept: false },
      });
    }
  }
  if (wishes.length > 0) learned(jobResource(kept.job), await api.append(kept.job, kept.who, wishes));
  await forgetTake(kept.id);
}

let again: ReturnType<typeof setTimeout> | undefined;
let delayMs = 2000;

function tryLater(api: ShopApi): void {
  clearTimeout(again);
  again = setTimeout(() => void sendKept(api), delayMs);
  delayMs = Math.min(30_000, delayMs * 1.6);
}

type Facts = ReturnType<typeof shopErrorFrom>['facts'];

/**
 * Sends one thing; what the shop will never take is told to `refused`.
 *
 * @returns false where the shop did not answer, so that nothing else needs to be tried
 */
async function tried(
  api: ShopApi,
  send: () => Promise<void>,
  refused: (facts: Facts) => Promise<unknown>,
): Promise<boolean> {
  try {
    await send();
    noteAnswer();
    delayMs = 2000;
  } catch (failed) {
    const { facts, unanswered } = shopErrorFrom(failed);
    if (unanswered) noteAway();
    if (!lasting.has(facts.status)) {
      tryLater(api);
      return false;
    }
    await refused(facts);
  }
  return true;
}

const refusedWith = ({ message, mend }: Facts) => ({ state: 'refused', refusal: { message, mend } }) as const;

/** @returns false where the shop did not answer */
async function sendWishes(api: ShopApi): Promise<boolean> {
  const waiting = (await keptWishes()).filter(({ state }) => state === 'waiting');
  for (const [n, kept] of waiting.entries()) {
    const send = async () => {
      const view = await sendWish(api, kept);
      await forgetWish(kept.id);
      // Until the last one is there, the page shows more than the shop knows.
      if (!waiting.slice(n + 1).some(({ job }) => job === kept.job)) learned(jobResource(kept.job), view);
    };
    const refused = async (facts: Facts) => {
      // Somebody else did the same meanwhile: then nothing is lost.
      if (facts.code === 'nothing-changes') await forgetWish(kept.id);
      else await keepWishes([{ ...kept, ...refusedWith(facts) }]);
      refresh(jobResource(kept.job));
    };
    if (!(await tried(api, send, refused))) return false;
  }
  return true;
}

async function sendAll(api: ShopApi): Promise<void> {
  const answered = await sendWishes(api);
  await lookAtKept();
  if (!answered) return;
  for (const kept of await keptTakes()) {
    if (kept.state !== 'waiting') continue;
    const refused = (facts: Facts) => changeKeptTake(kept.id, refusedWith(facts));
    if (!(await tried(api, () => sendTake(api, kept), refused))) break;
    await lookAtKept();
  }
  await lookAtKept();
}

function noteKeepsNothing(error: unknown): void {
  noteSaved({ fault: `this browser keeps nothing: ${error instanceof Error ? error.message : String(error)}` });
}

/** One page at a time sends; the others find nothing left to do. */
export async function sendKept(api: ShopApi): Promise<void> {
  try {
    if (navigator.locks) await navigator.locks.request('kickpanel.outbox', () => sendAll(api));
    else await sendAll(api);
  } catch (error) {
    noteKeepsNothing(error);
  }
}

/** Starts sending, takes in what earlier pages left behind, and goes on as long as the page is open. */
export function startOutbox(api: ShopApi): () => void {
  const send = () => void sendKept(api);
  void adoptOrphans().then(lookAtKept).then(send, noteKeepsNothing);
  addEventListener('online', send);
  const forget = onWaiting(() => {
    noteWaiting();
    if (waitingWishes().length > 0) tryLater(api);
  });
  return () => {
    forget();
    removeEventListener('online', send);
    clearTimeout(again);
  };
}
