// The one folder that holds everything: where it is, and how a workshop is opened in it.
import { randomBytes, randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { openDatabase } from './database.ts';
import { asStoreFailure } from './failure.ts';
import { realFileSystem } from './file-system.ts';
import { folderContentStore } from './folder-content-store.ts';
import { libsqlJournalStore } from './libsql-journal-store.ts';
import { makeWorkshop, type Surroundings, type Workshop } from './workshop.ts';

/** The folder asked for, else KICKPANEL_DATA, else Kickpanel in the user's home. */
export function dataFolderFor(asked: string | undefined, environment: Record<string, string | undefined>): string {
  return resolve(asked || environment.KICKPANEL_DATA || join(homedir(), 'Kickpanel'));
}

/** Clock and chance of this computer. */
export const realSurroundings: Surroundings = {
  now: () => new Date().toISOString(),
  freshId: () => randomUUID(),
  freshSalt: () => randomBytes(16).toString('hex'),
};

const readme = `This folder holds the jobs of Kickpanel.

journal.db     every entry of every job, with personal data in a table of their own (an SQLite database; while a
               program has it open, journal.db-wal and journal.db-shm belong to it)
recordings/    the recordings as they came in, each named by the SHA-256 of its content
tracks/        the descriptions of the test tracks, named the same way
photos/        the photos as they came in, JPEG or PNG, named the same way
incoming/      what is just arriving; leftovers are taken away at the next start
cache/         what can be computed again; may be deleted at any time
device         the name under which this folder writes entries

To back it up, copy the whole folder while no program uses it, or export each job ("kickpanel job export").
`;

/** The name of this folder's device, made when it is first asked for. */
function deviceOf(folder: string): string {
  const path = join(folder, 'device');
  if (existsSync(path)) {
    const name = readFileSync(path, 'utf8').trim();
    if (/^[A-Za-z0-9-]{8,64}$/.test(name)) return name;
  }
  const name = randomUUID();
  writeFileSync(path, `${name}\n`);
  return name;
}

/** A workshop in a folder, and what closes it. */
export interface OpenWorkshop {
  workshop: Workshop;
  folder: string;
  close: () => Promise<void>;
}

/**
 * Opens the data folder, made if it is not there.
 *
 * @throws StoreFailure when it cannot be made, read or written, or was written by a newer version
 */
export async function openWorkshop(folder: string): Promise<OpenWorkshop> {
  let device: string;
  try {
    // The plates and telephone numbers in here are nobody else's business.
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    if (!existsSync(join(folder, 'README.txt'))) writeFileSync(join(folder, 'README.txt'), readme);
    device = deviceOf(folder);
  } catch (error) {
    throw asStoreFailure(error, folder);
  }
  const content = await folderContentStore(folder, realFileSystem);
  const journals = libsqlJournalStore(openDatabase(join(folder, 'journal.db')));
  const workshop = makeWorkshop({ journals, content, device }, realSurroundings);
  return { workshop, folder, close: () => journals.close() };
}
