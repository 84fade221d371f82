// Photos go with a job as its recordings do: exported, proven, taken in, and missed where they are not.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { jpegPhoto, pngPhoto } from '../../../test/job/photos.ts';
import { does, freshFolder, keptPhotoOf, memoryWorkshop } from '../../../test/job/workshops.ts';
import { exportTo, filesIn, zipOf } from '../../../test/job/zip-files.ts';
import { jobView } from '../job-views.ts';
import { keepPhoto } from '../keep-photo.ts';
import { verifyJob } from '../verify-job.ts';
import type { Workshop } from '../workshop.ts';
import { importArchive } from './import-archive.ts';
import { verifyArchive } from './verify-archive.ts';
import { archiveOf } from './write-archive.ts';

let folder: string;
let workshop: Workshop;
let path: string;
beforeEach(async () => {
  folder = freshFolder();
  workshop = memoryWorkshop();
  const png = await keepPhoto(workshop.content, [pngPhoto(30, 20)]);
  if (!png.ok) throw new Error('it must be kept');
  const { sha256: photo, bytes } = png.value;
  await does(
    workshop,
    'j1',
    { command: 'createJob', name: 'Four door speakers', purpose: 'car' },
    await keptPhotoOf(workshop, 1, 'Left sill'),
    { command: 'attachPhoto', photo, bytes, type: 'png', name: 'Fuse holder' },
  );
  path = await exportTo(workshop, 'j1', join(folder, 'job.zip'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function meddled(change: (files: Map<string, Buffer>) => void): Promise<string> {
  const files = await filesIn(path);
  change(files);
  return zipOf(files, join(folder, 'meddled.zip'));
}

describe('photos of a job', () => {
  test('stand in its archive as they came, under endings that open them', async () => {
    const files = await filesIn(path);
    const photos = [...files].filter(([name]) => name.startsWith('photos/'));
    expect(photos.map(([name]) => name.replace(/[0-9a-f]{64}/, 'HASH'))).toEqual([
      'photos/HASH.jpg',
      'photos/HASH.png',
    ]);
    expect(photos[0][1].equals(jpegPhoto(1))).toBe(true);
    const readme = (files.get('README.txt') as Buffer).toString();
    expect(readme).toContain('Left sill');
    for (const [name] of photos) expect(readme).toContain(name);
  });

  test('are proven with it, and come into another store once', async () => {
    expect(await verifyArchive(path)).toMatchObject({ value: { whole: true, photos: 2 } });
    const other = memoryWorkshop('tablet');
    expect(await importArchive(other, path)).toMatchObject({ value: { appended: 3, photos: 2 } });
    expect(await importArchive(other, path)).toMatchObject({ value: { appended: 0, photos: 0 } });
    expect((await jobView(other, 'j1'))?.job.photos).toEqual((await jobView(workshop, 'j1'))?.job.photos);
    expect(await verifyJob(other, 'j1')).toMatchObject({ value: { whole: true, photos: 2 } });
  });

  test.each([
    ['changed', (b: Buffer) => Buffer.concat([b, Buffer.from('!')]), 'photo-altered'],
    ['left out', null, 'photo-missing'],
  ])('are missed where one was %s, and nothing is taken in', async (_, change, code) => {
    const zip = await meddled((files) => {
      const name = [...files.keys()].find((key) => key.endsWith('.jpg')) as string;
      if (change === null) files.delete(name);
      else files.set(name, change(files.get(name) as Buffer));
    });
    const proof = await verifyArchive(zip);
    expect(proof.ok && proof.value.faults.map((fault) => fault.code)).toContain(code);
    const other = memoryWorkshop('tablet');
    expect(await importArchive(other, zip)).toMatchObject({ ok: false });
    expect(await other.content.list('photos')).toEqual([]);
  });

  test('that are gone from the store are told by export and proof', async () => {
    const bare = { ...workshop, content: memoryWorkshop().content };
    expect(await archiveOf(bare, 'j1', { personal: true })).toMatchObject({
      issues: [{ code: 'photo-missing' }, { code: 'photo-missing' }],
    });
    expect(await verifyJob(bare, 'j1')).toMatchObject({
      value: { whole: false, faults: [{ code: 'photo-missing' }, { code: 'photo-missing' }] },
    });
  });

  test('taken back stay in the archive: their entries do', async () => {
    const entry = (await jobView(workshop, 'j1'))?.job.photos[0].entry as string;
    await does(workshop, 'j1', { command: 'undo', entry });
    expect((await jobView(workshop, 'j1'))?.job.photos).toMatchObject([{ name: 'Fuse holder' }]);
    const later = await exportTo(workshop, 'j1', join(folder, 'later.zip'));
    expect(await verifyArchive(later)).toMatchObject({ value: { whole: true, photos: 2 } });
  });
});
