// What the server last said, by name: shown at once, asked for again when a job changes or the server comes back.
import type { ShopError } from './shop-error.ts';
import { shopErrorFrom } from './shop-error.ts';

export interface Resource<Value> {
  value: Value | undefined;
  /** The newest call failed; an older value may still be shown. */
  error: ShopError | undefined;
  asking: boolean;
}

interface Entry {
  resource: Resource<unknown>;
  ask: (() => Promise<unknown>) | undefined;
  listeners: Set<() => void>;
  /** Answers that come after a newer question do not count. */
  turn: number;
}

/** Before anybody has asked. */
export const nothing: Resource<unknown> = { value: undefined, error: undefined, asking: true };
const entries = new Map<string, Entry>();

function entryOf(name: string): Entry {
  let entry = entries.get(name);
  if (!entry) {
    entry = { resource: nothing, ask: undefined, listeners: new Set(), turn: 0 };
    entries.set(name, entry);
  }
  return entry;
}

function show(entry: Entry, resource: Resource<unknown>): void {
  entry.resource = resource;
  for (const listener of entry.listeners) listener();
}

async function askAgain(entry: Entry): Promise<void> {
  if (!entry.ask) return;
  const turn = ++entry.turn;
  show(entry, { ...entry.resource, asking: true });
  try {
    const value = await entry.ask();
    if (turn === entry.turn) show(entry, { value, error: undefined, asking: false });
  } catch (error) {
    if (turn === entry.turn) show(entry, { value: entry.resource.value, error: shopErrorFrom(error), asking: false });
  }
}

/** Asks for `name`, now and whenever it may have changed. */
export function askFor(name: string, ask: () => Promise<unknown>): void {
  const entry = entryOf(name);
  entry.ask = ask;
  void askAgain(entry);
}

/** Asks again for everything shown whose name begins so. */
export function refresh(prefix: string): void {
  for (const [name, entry] of entries) {
    if (name.startsWith(prefix) && entry.listeners.size > 0) void askAgain(entry);
  }
}

/** What an answer to something else told about `name`. */
export function learned(name: string, value: unknown): void {
  const entry = entryOf(name);
  const { asking } = entry.resource;
  entry.turn++;
  show(entry, { value, error: undefined, asking: false });
  // The question that was on its way may know of more than this answer does, and its own answer counts no longer.
  if (asking) void askAgain(entry);
}

/** What is known of `name` now, and whether it is being asked for. */
export const standing = (name: string): Resource<unknown> => entryOf(name).resource;

/** What is known of `name` now, without asking. */
export const known = (name: string): unknown => standing(name).value;

/** Calls back when what is known of `name` changes; the answer ends it. */
export function onChanged(name: string, listener: () => void): () => void {
  const { listeners } = entryOf(name);
  listeners.add(listener);
  return () => listeners.delete(listener);
}
