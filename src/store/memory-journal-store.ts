// Journals in memory: for tests, and for whatever must leave no trace.
import { emptyHead, type Head } from '../job/chain.ts';
import type { ChainedEntry } from '../job/entries.ts';
import type { PersonalRecord } from '../job/personal.ts';
import type { Addition, JournalStore } from './journal-store.ts';

/** A store that forgets everything when it is let go. What goes in and out is copied. */
export function memoryJournalStore(): JournalStore {
  const journals = new Map<string, string[]>();
  const records = new Map<string, Map<string, PersonalRecord>>();
  const views = new Map<string, { key: string; body: string }>();

  function headOf(job: string): Head {
    const entries = journals.get(job);
    if (entries === undefined) return emptyHead;
    return { entries: entries.length, hash: (JSON.parse(entries[entries.length - 1]) as ChainedEntry).hash };
  }

  function append({ job, after, entries, records: added, erase }: Addition): boolean {
    const head = headOf(job);
    if (head.entries !== after.entries || head.hash !== after.hash) return false;
    if (entries.length > 0) {
      journals.set(job, [...(journals.get(job) ?? []), ...entries.map((entry) => JSON.stringify(entry))]);
    }
    const held = records.get(job) ?? new Map<string, PersonalRecord>();
    for (const record of added) if (!held.has(record.id)) held.set(record.id, { ...record });
    for (const id of erase.records) {
      const record = held.get(id);
      if (record !== undefined && record.erasedWhen === undefined)
        held.set(id, { ...record, salt: null, value: null, erasedWhen: erase.when });
    }
    records.set(job, held);
    return true;
  }

  return {
    heads: async () => new Map([...journals.keys()].map((job) => [job, headOf(job)])),
    head: async (job) => headOf(job),
    entries: async (job, skip = 0) =>
      (journals.get(job) ?? []).slice(skip).map((text) => JSON.parse(text) as ChainedEntry),
    append: async (addition) => append(addition),
    personalRecords: async (job) => [...(records.get(job)?.values() ?? [])].map((record) => ({ ...record })),
    async keptView(job, name, key) {
      const view = views.get(`${job} ${name}`);
      return view?.key === key ? view.body : null;
    },
    async keepView(job, name, key, body) {
      views.set(`${job} ${name}`, { key, body });
    },
    changeMark: async () => 0,
    close: async () => {},
  };
}
