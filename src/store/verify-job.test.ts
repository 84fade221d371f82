import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { does, type FolderWorkshop, folderWorkshop, fullJob } from '../../test/job/workshops.ts';
import type { Verification } from '../job/verification.ts';
import { openDatabase } from './database.ts';
import { verifyJob } from './verify-job.ts';

let bench: FolderWorkshop;
beforeEach(async () => {
  bench = await folderWorkshop();
  await fullJob(bench.workshop);
});
afterEach(() => bench.clear());

async function proof(options: Parameters<typeof verifyJob>[2] = {}): Promise<Verification> {
  const result = await verifyJob(bench.workshop, 'j1', options);
  if (!result.ok) throw new Error(result.issues[0].message);
  return result.value;
}

/** As somebody would who knows the database. */
function meddle(sql: string): void {
  const database = openDatabase(join(bench.folder, 'journal.db'));
  database.run(sql);
  database.close();
}

test('a job as it was written is whole, with everything counted', async () => {
  const shares: number[] = [];
  expect(await proof({ onProgress: (share) => shares.push(share) })).toEqual({
    schema: 'kickpanel.verification/1',
    job: 'j1',
    whole: true,
    head: await bench.workshop.journals.head('j1'),
    recordings: 2,
    tracks: 1,
    photos: 0,
    personalRecords: { held: 2, erased: 0, leftOut: 0 },
    faults: [],
  });
  expect(shares.at(-1)).toBe(1);
  expect(await verifyJob(bench.workshop, 'j9')).toMatchObject({ ok: false, issues: [{ code: 'job-unknown' }] });
});

test('an entry changed in the database is named', async () => {
  meddle("UPDATE entries SET body = replace(body, 'grille', 'tweeter') WHERE position = 6");
  expect(await proof()).toMatchObject({ whole: false, faults: [{ code: 'entry-altered', position: 6 }] });
});

test('the first of several is named first', async () => {
  meddle("UPDATE entries SET body = replace(body, 'Ann', 'Bob') WHERE position IN (5, 3)");
  expect((await proof()).faults.map(({ position }) => position)).toEqual([3, 5]);
});

test('an entry taken out, or cut off at the end, is missed', async () => {
  meddle('DELETE FROM entries WHERE position = 6');
  expect((await proof()).faults).toMatchObject([{ code: 'end-differs' }]);
  meddle('DELETE FROM entries WHERE position = 3');
  expect((await proof()).faults).toMatchObject([{ code: 'entry-missing', position: 3 }]);
});

test('a recording that is not what it was, or is gone, is named with its entry', async () => {
  const [first, second] = await bench.workshop.content.list('recordings');
  writeFileSync(bench.workshop.content.path('recordings', first) as string, 'spoilt');
  rmSync(bench.workshop.content.path('recordings', second) as string);
  const { faults, recordings } = await proof();
  expect(recordings).toBe(0);
  expect(faults.map(({ code, where }) => [code, where]).sort()).toEqual([
    ['recording-altered', first],
    ['recording-missing', second],
  ]);
  expect(faults[0].position).toBe(4);
});

test('personal data changed or erased in the database do not pass; erased on request they do', async () => {
  meddle("UPDATE personal SET value = 'Somebody' WHERE kind = 'owner'");
  meddle(
    "UPDATE personal SET value = NULL, salt = NULL, erased_when = '2026-03-04T09:00:00.000Z' WHERE kind = 'plate'",
  );
  expect((await proof()).faults.map(({ code }) => code).sort()).toEqual([
    'personal-altered',
    'personal-erased-silently',
  ]);
  await does(bench.workshop, 'j1', { command: 'erasePersonal' });
  expect(await proof()).toMatchObject({ whole: true, personalRecords: { held: 0, erased: 2 } });
});

test('a hash that was kept elsewhere proves what the chain alone cannot', async () => {
  const { hash } = await bench.workshop.journals.head('j1');
  await does(bench.workshop, 'j1', { command: 'addNote', text: 'later' });
  expect((await proof({ keptHash: hash })).whole).toBe(true);
  expect((await proof({ keptHash: 'f'.repeat(64) })).faults).toMatchObject([{ code: 'kept-hash-unknown' }]);
});
