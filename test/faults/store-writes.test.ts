// The n-th call to the disk or to the database fails, n = 1, 2, ...: the person is told, and after a new start all of it is
// there or nothing.
import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { importArchive } from '../../src/store/archive/import-archive.ts';
import type { Database } from '../../src/store/database.ts';
import { isStoreFailure } from '../../src/store/failure.ts';
import { type FileSystem, realFileSystem } from '../../src/store/file-system.ts';
import { verifyJob } from '../../src/store/verify-job.ts';
import type { Workshop } from '../../src/store/workshop.ts';
import { carryOut } from '../../src/store/write-entries.ts';
import { does, folderWorkshop, freshFolder, fullJob, keptPhotoOf, keptTake, memoryWorkshop } from '../job/workshops.ts';
import { exportTo } from '../job/zip-files.ts';

/** When the fault strikes: instead of the call, or after it was done. */
type Moment = 'instead' | 'after';

interface Fault {
  left: number;
  moment: Moment;
  code: string;
}

function strike<Value>(fault: Fault, call: () => Value): Value {
  const struck = --fault.left === 0;
  const error = () => Object.assign(new Error('made to fail'), { code: fault.code });
  if (struck && fault.moment === 'instead') throw error();
  const value = call();
  if (!struck) return value;
  if (value instanceof Promise) {
    return value.then(() => {
      throw error();
    }) as Value;
  }
  throw error();
}

function failingFiles(fault: Fault): FileSystem {
  const wrapped = (name: keyof FileSystem) =>
    // biome-ignore lint/suspicious/noExplicitAny: all calls of the seam are wrapped alike
    (async (...words: any[]) => strike(fault, () => (realFileSystem[name] as any)(...words))) as any;
  return {
    makeFolder: wrapped('makeFolder'),
    rename: wrapped('rename'),
    syncFolder: wrapped('syncFolder'),
    remove: wrapped('remove'),
    size: wrapped('size'),
    list: wrapped('list'),
    async create(path) {
      const made: { close(): Promise<void> }[] = [];
      const draft = await strike(fault, async () => {
        made.push(await realFileSystem.create(path));
        return made[0] as Awaited<ReturnType<FileSystem['create']>>;
      }).catch(async (error) => {
        await made[0]?.close();
        throw error;
      });
      return {
        write: async (bytes) => strike(fault, () => draft.write(bytes)),
        sync: async () => strike(fault, () => draft.sync()),
        // A file that says it cannot be closed is closed all the same, or the test would run out of them.
        close: () => draft.close().then(() => strike(fault, async () => {})),
      };
    },
  };
}

const failingDatabase =
  (fault: Fault) =>
  (real: Database): Database => ({
    run: (sql, ...values) => strike(fault, () => real.run(sql, ...values)),
    all: (sql, ...values) => strike(fault, () => real.all(sql, ...values)),
    close: () => real.close(),
  });

/** Everything that can be seen of the workshop. */
async function picture({ journals, content }: Workshop): Promise<string> {
  const heads = [...(await journals.heads())];
  const people = await journals.personalRecords('j1');
  return JSON.stringify({
    heads: heads.map(([job, { entries }]) => [job, entries]),
    people: people.map(({ kind, value }) => [kind, value]),
    recordings: (await content.list('recordings')).length,
    tracks: (await content.list('tracks')).length,
    photos: (await content.list('photos')).length,
  });
}

const scratch = freshFolder();
const template = join(scratch, 'template');
let archive = '';
beforeAll(async () => {
  mkdirSync(template);
  const first = await folderWorkshop(template);
  await fullJob(first.workshop);
  await does(first.workshop, 'j1', { command: 'addNote', text: 'before' });
  await first.close();
  const donor = memoryWorkshop('donor');
  const opening = { command: 'createJob', name: 'One take', purpose: 'car' } as const;
  await does(donor, 'j2', opening, await keptTake(donor, 'door', 3), await keptPhotoOf(donor, 3), {
    command: 'describeVehicle',
    plate: 'WB 3',
  });
  archive = await exportTo(donor, 'j2', join(scratch, 'job.zip'));
});
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const note = (id: string) => ({ id, who: 'Ann', wish: { command: 'addNote', text: id } as const });

/** What people do; each may end with the old picture or the new one, or leave files that nothing speaks of yet. */
const deeds: Record<string, { does: (workshop: Workshop) => Promise<unknown>; seam: 'disk' | 'database' }[]> = {
  'three notes and a vehicle': [
    {
      seam: 'database',
      does: (workshop) =>
        carryOut(workshop, 'j1', [
          note('n1'),
          { id: 'v1', who: 'Ann', wish: { command: 'describeVehicle', plate: 'NEW 1' } },
          note('n2'),
          note('n3'),
        ]),
    },
  ],
  'a new job': [
    {
      seam: 'database',
      does: (workshop) =>
        carryOut(workshop, 'j3', [
          { id: 'o3', who: 'Ann', wish: { command: 'createJob', name: 'x', purpose: 'car' } },
          note('n31'),
        ]),
    },
  ],
  'personal data erased': [
    {
      seam: 'database',
      does: (workshop) => carryOut(workshop, 'j1', [{ id: 'x1', who: 'Ann', wish: { command: 'erasePersonal' } }]),
    },
  ],
  'a recording': [{ seam: 'disk', does: (workshop) => keptTake(workshop, 'new', 77, 500_000) }],
  'a photo and its entry': [
    {
      seam: 'disk',
      does: async (workshop) => does(workshop, 'j1', await keptPhotoOf(workshop, 78)),
    },
  ],
  'an archive': [
    { seam: 'database', does: (workshop) => importArchive(workshop, archive) },
    { seam: 'disk', does: (workshop) => importArchive(workshop, archive) },
  ],
};

const cases = Object.entries(deeds).flatMap(([name, list]) =>
  list.flatMap(({ seam, does: deed }) =>
    (['instead', 'after'] as const).map((moment) => ({ name, seam, moment, deed })),
  ),
);

describe.each(cases)('$name, with the $seam failing $moment the call', ({ seam, moment, deed }) => {
  test('is done whole or not at all, and it is said', { timeout: 240_000 }, async () => {
    let reached = true;
    let n = 0;
    while (reached) {
      n++;
      const folder = freshFolder();
      cpSync(template, folder, { recursive: true });
      const fault: Fault = { left: Number.POSITIVE_INFINITY, moment, code: seam === 'disk' ? 'ENOSPC' : 'SQLITE_FULL' };
      const bench = await folderWorkshop(
        folder,
        seam === 'disk' ? { files: failingFiles(fault) } : { database: failingDatabase(fault) },
      );
      const before = await picture(bench.workshop);
      fault.left = n;
      const outcome = await deed(bench.workshop).then(
        (value) => ({ value }),
        (error: unknown) => ({ error }),
      );
      reached = fault.left <= 0;
      fault.left = Number.POSITIVE_INFINITY;
      await bench.close();

      const again = await folderWorkshop(folder);
      for (const job of (await again.workshop.journals.heads()).keys()) {
        expect(await verifyJob(again.workshop, job)).toMatchObject({ ok: true, value: { whole: true, faults: [] } });
      }
      const after = await picture(again.workshop);
      if ('error' in outcome) {
        const { error } = outcome;
        if (!isStoreFailure(error)) throw error;
        expect(error.issue).toMatchObject({ code: 'disk-full', message: expect.any(String), mend: expect.any(String) });
        const journalsOf = (seen: string) => JSON.stringify([JSON.parse(seen).heads, JSON.parse(seen).people]);
        // Done again with the same ids it comes to the end, whatever the first attempt came to.
        await deed(again.workshop);
        const done = await picture(again.workshop);
        expect([journalsOf(before), journalsOf(done)]).toContain(journalsOf(after));
      } else if (!reached) {
        expect(outcome.value).not.toMatchObject({ ok: false });
        expect(after).not.toBe(before);
      }
      await again.clear();
    }
    expect(n).toBeGreaterThan(3);
  });
});
