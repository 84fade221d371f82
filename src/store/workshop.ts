// Journals and files of one shop together, with what they need from outside. The doors work on this and on nothing below.
import { createHash } from 'node:crypto';
import type { Head, Sha256 } from '../job/chain.ts';
import type { ChainedEntry } from '../job/entries.ts';
import { type Journal, journalOf } from '../job/journal.ts';
import type { ContentStore } from './content-store.ts';
import type { JournalStore } from './journal-store.ts';

/** Clock and chance, as data for the core. */
export interface Surroundings {
  /** Coordinated universal time in milliseconds, as `Date.prototype.toISOString` writes it. */
  now: () => string;
  /** A name that nothing has yet. */
  freshId: () => string;
  /** 128 bits of chance as hexadecimal digits. */
  freshSalt: () => string;
}

/** A job as it stands on disk. */
export interface LoadedJob {
  head: Head;
  /** In the order in which they were written. */
  chain: readonly ChainedEntry[];
  journal: Journal;
}

/** What changed, for whoever shows it. */
export interface Change {
  job: string;
  head: Head;
}

export interface Workshop extends Surroundings {
  readonly journals: JournalStore;
  readonly content: ContentStore;
  /** The name under which this store writes entries. */
  readonly device: string;
  /** A job that is not there is loaded empty. */
  load(job: string): Promise<LoadedJob>;
  /** A job that is in memory as it stands at `head`, or null. */
  held(job: string, head: Head): LoadedJob | null;
  /** Tells the listeners that a job has changed. */
  announce(change: Change): void;
  /** @returns what ends the listening */
  listen(listener: (change: Change) => void): () => void;
}

/** Jobs kept in memory while nobody else writes to them. */
const loadedMax = 8;

export const sha256: Sha256 = (text) => createHash('sha256').update(text).digest('hex');

export function makeWorkshop(
  parts: { journals: JournalStore; content: ContentStore; device: string },
  surroundings: Surroundings,
): Workshop {
  const loaded = new Map<string, LoadedJob>();
  const listeners = new Set<(change: Change) => void>();
  const { journals } = parts;
  return {
    ...parts,
    ...surroundings,
    async load(job) {
      const head = await journals.head(job);
      const kept = loaded.get(job);
      loaded.delete(job);
      let found = kept;
      if (kept === undefined || kept.head.hash !== head.hash) {
        const chain = await journals.entries(job);
        // Somebody may have written between the two looks; what was read is what counts.
        const end = { entries: chain.length, hash: chain.at(-1)?.hash ?? head.hash };
        found = { head: end, chain, journal: journalOf(job, chain) };
      }
      loaded.set(job, found as LoadedJob);
      for (const oldest of loaded.keys()) {
        if (loaded.size <= loadedMax) break;
        loaded.delete(oldest);
      }
      return found as LoadedJob;
    },
    held(job, head) {
      const found = loaded.get(job);
      return found?.head.hash === head.hash ? found : null;
    },
    announce(change) {
      for (const listener of listeners) listener(change);
    },
    listen(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
