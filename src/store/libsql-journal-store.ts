// Journals in an embedded database, one file for all jobs.
import { emptyHead, type Head } from '../job/chain.ts';
import type { ChainedEntry } from '../job/entries.ts';
import type { PersonalRecord } from '../job/personal.ts';
import { type Database, inTransaction } from './database.ts';
import { asStoreFailure, storeFailure } from './failure.ts';
import type { Addition, JournalStore } from './journal-store.ts';

/** Rises when the tables change; the file says which it has. */
const formVersion = 1;

const tables = [
  `CREATE TABLE jobs (
     job TEXT PRIMARY KEY, entries INTEGER NOT NULL, hash TEXT NOT NULL
   ) STRICT`,
  `CREATE TABLE entries (
     job TEXT NOT NULL REFERENCES jobs, position INTEGER NOT NULL, id TEXT NOT NULL, body TEXT NOT NULL,
     PRIMARY KEY (job, position), UNIQUE (job, id)
   ) STRICT`,
  `CREATE TABLE personal (
     job TEXT NOT NULL, id TEXT NOT NULL, kind TEXT NOT NULL, salt TEXT, value TEXT, erased_when TEXT,
     PRIMARY KEY (job, id)
   ) STRICT`,
];

/** Holds what can be made again, so it belongs to no form: it is made wherever it is missing. */
const viewTable = `CREATE TABLE IF NOT EXISTS kept_views (
  job TEXT NOT NULL, name TEXT NOT NULL, key TEXT NOT NULL, body TEXT NOT NULL, PRIMARY KEY (job, name)
) STRICT`;

function makeTables(database: Database): void {
  const form = () => database.all<{ user_version: number }>('PRAGMA user_version')[0].user_version;
  if (form() === 0) {
    inTransaction(database, () => {
      if (form() !== 0) return;
      for (const table of tables) database.run(table);
      database.run(`PRAGMA user_version = ${formVersion}`);
    });
  }
  if (form() === formVersion) {
    database.run(viewTable);
    return;
  }
  const issue = {
    code: 'data-newer',
    message: `The data folder was written by a newer version (form ${form()}, known here: ${formVersion}).`,
    mend: 'Use the newer version, or another data folder.',
  };
  throw storeFailure(issue, null);
}

interface RecordRow {
  id: string;
  kind: PersonalRecord['kind'];
  salt: string | null;
  value: string | null;
  erased_when: string | null;
}

/** A store over `database`, which it closes in the end. */
export function libsqlJournalStore(database: Database): JournalStore {
  try {
    makeTables(database);
  } catch (error) {
    throw asStoreFailure(error);
  }

  function headOf(job: string): Head {
    const [row] = database.all<Head>('SELECT entries, hash FROM jobs WHERE job = ?', job);
    return row === undefined ? emptyHead : { entries: row.entries, hash: row.hash };
  }

  function append({ job, after, entries, records, erase }: Addition): boolean {
    const done = inTransaction(database, () => {
      const head = headOf(job);
      if (head.entries !== after.entries || head.hash !== after.hash) return false;
      const last = entries[entries.length - 1];
      if (last !== undefined) {
        database.run(
          `INSERT INTO jobs (job, entries, hash) VALUES (?, ?, ?)
           ON CONFLICT (job) DO UPDATE SET entries = excluded.entries, hash = excluded.hash`,
          job,
          after.entries + entries.length,
          last.hash,
        );
      }
      entries.forEach((entry, index) => {
        const position = after.entries + index + 1;
        database.run(
          'INSERT INTO entries (job, position, id, body) VALUES (?, ?, ?, ?)',
          job,
          position,
          entry.id,
          JSON.stringify(entry),
        );
      });
      for (const { id, kind, salt, value, erasedWhen } of records) {
        database.run(
          `INSERT INTO personal (job, id, kind, salt, value, erased_when) VALUES (?, ?, ?, ?, ?, ?)
           ON CONFLICT DO NOTHING`,
          job,
          id,
          kind,
          salt,
          value,
          erasedWhen ?? null,
        );
      }
      for (const id of erase.records) {
        database.run(
          `UPDATE personal SET salt = NULL, value = NULL, erased_when = ?
           WHERE job = ? AND id = ? AND erased_when IS NULL`,
          erase.when,
          job,
          id,
        );
      }
      return true;
    });
    if (done && erase.records.length > 0) emptyLog();
    return done;
  }

  /** What was erased still stands in the write-ahead log; moving that into the file overwrites it. */
  function emptyLog(): void {
    database.all('PRAGMA wal_checkpoint(TRUNCATE)');
  }

  async function guarded<Value>(work: () => Value): Promise<Value> {
    try {
      return work();
    } catch (error) {
      throw asStoreFailure(error);
    }
  }

  return {
    heads: () =>
      guarded(() => {
        const rows = database.all<Head & { job: string }>('SELECT job, entries, hash FROM jobs ORDER BY job');
        return new Map(rows.map(({ job, entries, hash }) => [job, { entries, hash }]));
      }),
    head: (job) => guarded(() => headOf(job)),
    entries: (job, skip = 0) =>
      guarded(() =>
        database
          .all<{ body: string }>('SELECT body FROM entries WHERE job = ? AND position > ? ORDER BY position', job, skip)
          .map(({ body }) => JSON.parse(body) as ChainedEntry),
      ),
    append: (addition) => guarded(() => append(addition)),
    personalRecords: (job) =>
      guarded(() =>
        database
          .all<RecordRow>('SELECT id, kind, salt, value, erased_when FROM personal WHERE job = ? ORDER BY id', job)
          .map(({ erased_when, ...record }) => ({
            ...record,
            job,
            ...(erased_when === null ? {} : { erasedWhen: erased_when }),
          })),
      ),
    keptView: (job, name, key) =>
      guarded(() => {
        const sql = 'SELECT body FROM kept_views WHERE job = ? AND name = ? AND key = ?';
        return database.all<{ body: string }>(sql, job, name, key)[0]?.body ?? null;
      }),
    keepView: (job, name, key, body) =>
      guarded(() =>
        database.run(
          `INSERT INTO kept_views (job, name, key, body) VALUES (?, ?, ?, ?)
           ON CONFLICT (job, name) DO UPDATE SET key = excluded.key, body = excluded.body`,
          job,
          name,
          key,
          body,
        ),
      ),
    changeMark: () => guarded(() => database.all<{ data_version: number }>('PRAGMA data_version')[0].data_version),
    close: () => guarded(() => database.close()),
  };
}
