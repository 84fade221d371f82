// Undo appends: which entries no longer count, because a later one takes them back.
import type { Entry } from './entries.ts';

/** Kinds that nothing takes back: a job that was opened stays, and what was erased is gone. */
const lasting = new Set(['job-created', 'personal-erased']);

export function isUndoable(entry: { kind: string }): boolean {
  return !lasting.has(entry.kind);
}

/**
 * Ids of the entries that do not count.
 *
 * Read from the end: an entry that takes another back counts unless it was itself taken back by one that counts. So an
 * undo undone is done again, however deep.
 *
 * @param entries in merge order
 */
export function withdrawnIds(entries: readonly Entry[]): Set<string> {
  const withdrawn = new Set<string>();
  if (!entries.some(({ kind }) => kind === 'undone')) return withdrawn;
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  for (let n = entries.length - 1; n >= 0; n--) {
    const entry = entries[n];
    if (entry.kind !== 'undone' || withdrawn.has(entry.id)) continue;
    const target = byId.get(String(entry.data.entry));
    if (target !== undefined && isUndoable(target)) withdrawn.add(target.id);
  }
  return withdrawn;
}
