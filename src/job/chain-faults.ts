// Proof that a journal is as it was written, or the name of the first entry that is not.
import { entryHash, type Head, type Sha256 } from './chain.ts';
import { type ChainedEntry, chainedEntrySchema, noHash } from './entries.ts';

/** What breaks a journal, in the order in which it was written. `position` counts from 1. */
export interface ChainFault {
  code: 'entry-unreadable' | 'entry-altered' | 'entry-missing' | 'entry-twice' | 'entry-foreign' | 'end-differs';
  message: string;
  position: number;
  /** Id of the entry, as far as it can be told. */
  entry?: string;
}

/**
 * What is wrong with a journal, the first fault first; empty when it is whole.
 *
 * Every entry is hashed again. Where one no longer has its own hash, that one was altered. Where each has its own hash
 * but the next one does not name it, either it was altered and hashed anew or one after it was taken away: the numbers
 * of its device tell which. After such a break the rest is checked on its own, so that one alteration is one fault.
 * What a chain alone cannot show is a journal cut off at its end, or rewritten whole: `head` as kept elsewhere does.
 *
 * @param entries as they stand, unproven
 * @param head    where the journal ended when it was last written, if that is known
 */
export function chainFaults(entries: readonly unknown[], job: string, sha256: Sha256, head?: Head): ChainFault[] {
  const faults: ChainFault[] = [];
  const seen = new Set<string>();
  let before: ChainedEntry | undefined;
  let expected = noHash;
  entries.forEach((unproven, index) => {
    const position = index + 1;
    const parsed = chainedEntrySchema.safeParse(unproven);
    if (!parsed.success) {
      const id = (unproven as { id?: unknown } | null)?.id;
      faults.push({
        code: 'entry-unreadable',
        message: `Entry ${position} is no entry: ${parsed.error.issues[0]?.message ?? 'it has no form'}.`,
        position,
        ...(typeof id === 'string' ? { entry: id } : {}),
      });
      before = undefined;
      expected = '';
      return;
    }
    // What is hashed is what stands there, not what the form makes of it.
    const entry = unproven as ChainedEntry;
    const named = { position, entry: entry.id };
    const say = (code: ChainFault['code'], message: string) => faults.push({ code, message, ...named });
    const ownHash = entryHash(entry, entry.previousHash, sha256);
    if (ownHash !== entry.hash) {
      say('entry-altered', `Entry ${position} (${entry.kind}, ${entry.when}) was altered after it was written.`);
      // What it was is gone, but the next entry says what its hash was; trust that and look on.
      expected = '';
    } else {
      if (expected !== '' && entry.previousHash !== expected) faults.push(brokenLink(before, entry, position));
      expected = entry.hash;
    }
    if (seen.has(entry.id)) say('entry-twice', `Entry ${position} has the id of an earlier entry.`);
    if (entry.job !== job) say('entry-foreign', `Entry ${position} belongs to job ${entry.job}, not to ${job}.`);
    seen.add(entry.id);
    before = entry;
  });
  if (faults.length === 0 && head !== undefined)
    faults.push(...endFaults(entries.length, before?.hash ?? noHash, head));
  return faults;
}

/** Entry `position` is sound and names another one before it than the one that stands there. */
function brokenLink(before: ChainedEntry | undefined, entry: ChainedEntry, position: number): ChainFault {
  const gap = before === undefined || entry.device !== before.device || entry.sequence > before.sequence + 1;
  if (before === undefined || gap) {
    const where = before === undefined ? 'before the first entry' : `between entries ${position - 1} and ${position}`;
    return {
      code: 'entry-missing',
      message: `The journal is broken ${where}: one was taken away there, or the one before was altered.`,
      position,
      entry: entry.id,
    };
  }
  return {
    code: 'entry-altered',
    message: `Entry ${position - 1} (${before.kind}, ${before.when}) was altered and given a new hash.`,
    position: position - 1,
    entry: before.id,
  };
}

function endFaults(entries: number, hash: string, head: Head): ChainFault[] {
  if (entries === head.entries && hash === head.hash) return [];
  const message =
    entries < head.entries
      ? `The journal ends after ${entries} entries; it had ${head.entries}.`
      : `The journal does not end as it was last written (${head.entries} entries).`;
  return [{ code: 'end-differs', message, position: entries }];
}
