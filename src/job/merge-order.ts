// The one order of entries that every device comes to, whatever reached it first.
import type { Entry } from './entries.ts';

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/**
 * Order of two entries: time, then device, then the device's own count, then id.
 *
 * The entry that opens a job comes first whatever the clocks say: nothing can have happened in a job before it.
 */
export function compareEntries(a: Entry, b: Entry): number {
  const opens = (entry: Entry) => (entry.kind === 'job-created' ? 0 : 1);
  return (
    opens(a) - opens(b) ||
    compareText(a.when, b.when) ||
    compareText(a.device, b.device) ||
    a.sequence - b.sequence ||
    compareText(a.id, b.id)
  );
}

/** The entries in that order; the same for every order given. */
export function inMergeOrder(entries: readonly Entry[]): Entry[] {
  return [...entries].sort(compareEntries);
}
