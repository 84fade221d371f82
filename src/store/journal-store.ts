// What a store of journals promises. Every store keeps the same promises and passes the same tests.
import type { Head } from '../job/chain.ts';
import type { ChainedEntry } from '../job/entries.ts';
import type { PersonalRecord } from '../job/personal.ts';

/** What goes into a journal in one piece. */
export interface Addition {
  job: string;
  /** Where the journal ended when this was decided. */
  after: Head;
  /** In their places, the first after `after`. */
  entries: readonly ChainedEntry[];
  /** Personal records that come with them; one that is there already stays as it is. */
  records: readonly PersonalRecord[];
  /** Personal records whose content goes with them. */
  erase: { records: readonly string[]; when: string };
}

/**
 * Journals by job, with the personal records beside them.
 *
 * All promises may be rejected with a StoreFailure; then nothing has changed.
 */
export interface JournalStore {
  /** Every journal that holds an entry, by job. */
  heads(): Promise<Map<string, Head>>;
  /** `emptyHead` for a job that is not there. */
  head(job: string): Promise<Head>;
  /** As they stand, unproven, from the one after the first `skip`. */
  entries(job: string, skip?: number): Promise<ChainedEntry[]>;
  /**
   * Appends all of it or nothing; it is on disk when this resolves.
   *
   * @returns false when the journal no longer ends at `after`: then nothing was done, and the caller decides anew
   */
  append(addition: Addition): Promise<boolean>;
  personalRecords(job: string): Promise<PersonalRecord[]>;
  /**
   * A view kept under `key`, which says what it was made of and by what; null where that has changed. One view of a name is
   * kept for each job, and may vanish at any time: it is computed again.
   */
  keptView(job: string, name: string, key: string): Promise<string | null>;
  keepView(job: string, name: string, key: string, body: string): Promise<void>;
  /** Changes when somebody else has written; only good for comparing. */
  changeMark(): Promise<number>;
  close(): Promise<void>;
}
