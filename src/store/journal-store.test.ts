// One set of tests for every kind of store: what the contract promises.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { at, Bench, openJob, sha256 } from '../../test/job/given.ts';
import { freshFolder } from '../../test/job/workshops.ts';
import { chained, emptyHead } from '../job/chain.ts';
import { openDatabase } from './database.ts';
import type { Addition, JournalStore } from './journal-store.ts';
import { libsqlJournalStore } from './libsql-journal-store.ts';
import { memoryJournalStore } from './memory-journal-store.ts';

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

function freshLibsql(): JournalStore {
  const folder = freshFolder();
  folders.push(folder);
  return libsqlJournalStore(openDatabase(join(folder, 'journal.db')));
}

const bench = new Bench().does(
  openJob,
  { command: 'describeVehicle', plate: 'WB 12 XYZ', owner: 'Wenbury' },
  { command: 'addNote', text: 'it’s “quoted”, NUL \u0000 and 🔧' },
);
const { chain } = bench;
const headAfter = (n: number) => ({ entries: n, hash: n === 0 ? emptyHead.hash : chain[n - 1].hash });
const nothing = { records: [], erase: { records: [], when: at(0) } };
const addition = (from: number, to: number, more: Partial<Addition> = {}): Addition => ({
  job: 'j1',
  after: headAfter(from),
  entries: chain.slice(from, to),
  ...nothing,
  ...more,
});

describe.each([
  ['memory', memoryJournalStore],
  ['an embedded database', freshLibsql],
])('a journal store in %s', (_, make) => {
  let store: JournalStore;
  beforeEach(() => {
    store = make();
    return () => store.close();
  });

  test('knows nothing of a job that nobody wrote to', async () => {
    expect(await store.head('j1')).toEqual(emptyHead);
    expect(await store.entries('j1')).toEqual([]);
    expect(await store.personalRecords('j1')).toEqual([]);
    expect(await store.heads()).toEqual(new Map());
  });

  test('gives back what was appended, as it was and in its order', async () => {
    expect(await store.append(addition(0, 2))).toBe(true);
    expect(await store.append(addition(2, 3))).toBe(true);
    expect(await store.entries('j1')).toEqual(chain);
    expect(await store.entries('j1', 2)).toEqual(chain.slice(2));
    expect(await store.entries('j1', 3)).toEqual([]);
    expect(await store.head('j1')).toEqual(headAfter(3));
  });

  test('keeps jobs apart', async () => {
    const other = chained(new Bench('j2').does(openJob).entries, emptyHead, sha256);
    await store.append(addition(0, 3));
    await store.append({ job: 'j2', after: emptyHead, entries: other, ...nothing });
    expect(await store.entries('j2')).toEqual(other);
    expect(await store.heads()).toEqual(
      new Map([
        ['j1', headAfter(3)],
        ['j2', { entries: 1, hash: other[0].hash }],
      ]),
    );
  });

  test('appends nothing at all where somebody was quicker', async () => {
    await store.append(addition(0, 1));
    const late = addition(0, 3, { records: bench.records, erase: { records: ['x'], when: at(9) } });
    expect(await store.append(late)).toBe(false);
    expect(await store.append(addition(2, 3))).toBe(false);
    expect(await store.entries('j1')).toEqual(chain.slice(0, 1));
    expect(await store.personalRecords('j1')).toEqual([]);
  });

  test('keeps personal records beside the entries, and the first of a name stays', async () => {
    await store.append(addition(0, 2, { records: bench.records }));
    await store.append(addition(2, 3, { records: [{ ...bench.records[0], value: 'another' }] }));
    const byId = (a: { id: string }, b: { id: string }) => (a.id < b.id ? -1 : 1);
    expect((await store.personalRecords('j1')).sort(byId)).toEqual([...bench.records].sort(byId));
    expect(await store.personalRecords('j2')).toEqual([]);
  });

  test('erases value and salt and says when; a second time changes nothing', async () => {
    const [owner, plate] = bench.records;
    await store.append(addition(0, 2, { records: bench.records }));
    await store.append(addition(2, 3, { erase: { records: [plate.id, 'unknown'], when: at(9) } }));
    await store.append({ ...addition(3, 3), erase: { records: [plate.id], when: at(10) } });
    const held = await store.personalRecords('j1');
    expect(held.find(({ id }) => id === plate.id)).toEqual({ ...plate, salt: null, value: null, erasedWhen: at(9) });
    expect(held.find(({ id }) => id === owner.id)).toEqual(owner);
  });

  test('keeps a view as long as its journal ends as it did', async () => {
    await store.append(addition(0, 1));
    expect(await store.keptView('j1', 'summary', chain[0].hash)).toBeNull();
    await store.keepView('j1', 'summary', chain[0].hash, 'one');
    await store.keepView('j1', 'other', chain[0].hash, 'two');
    expect(await store.keptView('j1', 'summary', chain[0].hash)).toBe('one');
    expect(await store.keptView('j1', 'summary', chain[1].hash)).toBeNull();
    await store.keepView('j1', 'summary', chain[1].hash, 'three');
    expect(await store.keptView('j1', 'summary', chain[0].hash)).toBeNull();
    expect(await store.keptView('j1', 'summary', chain[1].hash)).toBe('three');
  });

  test('what was given out is a copy', async () => {
    await store.append(addition(0, 2));
    const [first] = await store.entries('j1');
    first.who = 'Bob';
    expect((await store.entries('j1'))[0].who).toBe('Ann');
  });
});
