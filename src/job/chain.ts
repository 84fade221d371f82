// The chain of hashes through a journal: who changes an entry changes every hash after it.
import { canonicalJson } from './canonical-json.ts';
import { type ChainedEntry, type Entry, noHash } from './entries.ts';

/** SHA-256 of text as UTF-8, as hexadecimal digits. The shell gives it; the core has no cipher of its own. */
export type Sha256 = (text: string) => string;

/** Where a journal ends: how many entries it has and the hash of the last. */
export interface Head {
  entries: number;
  hash: string;
}

export const emptyHead: Head = { entries: 0, hash: noHash };

/** An entry without its place in a journal: what its author wrote. */
export function authored(entry: Entry): Entry {
  const { previousHash: _, hash: __, ...content } = entry;
  return content as Entry;
}

/** Hash of an entry in its place: over everything it says and the hash of the entry before. */
export function entryHash(entry: Entry, previousHash: string, sha256: Sha256): string {
  return sha256(canonicalJson({ ...authored(entry), previousHash }));
}

/** Entries put in their places after `head`, in the order given. */
export function chained(entries: readonly Entry[], head: Head, sha256: Sha256): ChainedEntry[] {
  let previousHash = head.hash;
  return entries.map((entry) => {
    const hash = entryHash(entry, previousHash, sha256);
    const placed = { ...authored(entry), previousHash, hash };
    previousHash = hash;
    return placed;
  });
}

/** Whether two entries say the same, wherever they stand. */
export function sameEntry(a: Entry, b: Entry): boolean {
  return canonicalJson(authored(a)) === canonicalJson(authored(b));
}
