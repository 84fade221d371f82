import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { does, folderWorkshop, freshFolder } from '../../test/job/workshops.ts';
import { openDatabase } from './database.ts';
import { libsqlJournalStore } from './libsql-journal-store.ts';

let folder: string;
beforeEach(() => {
  folder = freshFolder();
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const databaseBytes = () =>
  readdirSync(folder)
    .filter((name) => name.startsWith('journal.db'))
    .map((name) => readFileSync(join(folder, name), 'latin1'))
    .join('');

test('a commit is on disk when it is acknowledged, and survives without being closed', async () => {
  const settings = openDatabase(join(folder, 'journal.db'));
  expect(settings.all('PRAGMA journal_mode')).toEqual([{ journal_mode: 'wal' }]);
  // 2 is FULL: the write-ahead log is synced at every commit.
  expect(settings.all('PRAGMA synchronous')).toEqual([{ synchronous: 2 }]);
  settings.close();
  const first = await folderWorkshop(folder);
  await does(first.workshop, 'j1', { command: 'createJob', name: 'x', purpose: 'car' });
  const second = await folderWorkshop(folder);
  expect(await second.workshop.journals.head('j1')).toMatchObject({ entries: 1 });
  await first.close();
  await second.close();
});

test('what was erased is in none of the files any more', async () => {
  const { workshop, close } = await folderWorkshop(folder);
  const plate = 'WB12XYZ-very-unlikely';
  await does(
    workshop,
    'j1',
    { command: 'createJob', name: 'x', purpose: 'car' },
    { command: 'describeVehicle', plate },
  );
  const [{ salt }] = await workshop.journals.personalRecords('j1');
  expect(databaseBytes()).toContain(plate);
  expect(databaseBytes()).toContain(salt);
  await does(workshop, 'j1', { command: 'erasePersonal' });
  expect(databaseBytes()).not.toContain(plate);
  expect(databaseBytes()).not.toContain(salt);
  await close();
  expect(databaseBytes()).not.toContain(plate);
});

test('a change by another connection is noticed, and one of its own is not', async () => {
  const own = await folderWorkshop(folder);
  const other = await folderWorkshop(folder, { device: 'tablet' });
  await does(own.workshop, 'j1', { command: 'createJob', name: 'x', purpose: 'car' });
  const mark = await own.workshop.journals.changeMark();
  await does(own.workshop, 'j1', { command: 'addNote', text: 'own' });
  expect(await own.workshop.journals.changeMark()).toBe(mark);
  await does(other.workshop, 'j1', { command: 'addNote', text: 'other' });
  expect(await own.workshop.journals.changeMark()).not.toBe(mark);
  await own.close();
  await other.close();
});

test('two connections that write at once come to one journal with both in it', async () => {
  const benches = await Promise.all(['a', 'b'].map((device) => folderWorkshop(folder, { device })));
  await does(benches[0].workshop, 'j1', { command: 'createJob', name: 'x', purpose: 'car' });
  await Promise.all(
    benches.flatMap(({ workshop }, n) =>
      Array.from({ length: 10 }, (_, i) => does(workshop, 'j1', { command: 'addNote', text: `${n} ${i}` })),
    ),
  );
  expect(await benches[1].workshop.journals.head('j1')).toMatchObject({ entries: 21 });
  await Promise.all(benches.map(({ close }) => close()));
});

test('a folder written by a newer version is left alone', async () => {
  const database = openDatabase(join(folder, 'journal.db'));
  database.run('PRAGMA user_version = 99');
  expect(() => libsqlJournalStore(database)).toThrow(/newer version/);
  database.close();
});

test('what is no database is said to be damaged, and is left as it is', () => {
  const path = join(folder, 'journal.db');
  const text = 'this is not a database, '.repeat(100);
  writeFileSync(path, text);
  expect(() => openDatabase(path)).toThrow(/damaged/);
  expect(readFileSync(path, 'utf8')).toBe(text);
});
