import { readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { sha256 } from '../../../test/job/given.ts';
import { does, freshFolder, fullJob, memoryWorkshop } from '../../../test/job/workshops.ts';
import { exportTo, filesIn, zipOf } from '../../../test/job/zip-files.ts';
import { chained, emptyHead } from '../../job/chain.ts';
import type { ChainedEntry } from '../../job/entries.ts';
import { jobView } from '../job-views.ts';
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
  await fullJob(workshop);
  path = await exportTo(workshop, 'j1', join(folder, 'job.zip'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const proofOf = async (zip: string, options = {}) => {
  const proof = await verifyArchive(zip, options);
  if (!proof.ok) throw new Error(proof.issues[0].message);
  return proof.value;
};

/** The archive after somebody changed the files in it. */
async function meddled(change: (files: Map<string, Buffer>) => void): Promise<string> {
  const files = await filesIn(path);
  change(files);
  return zipOf(files, join(folder, 'meddled.zip'));
}

const lines = (files: Map<string, Buffer>) => (files.get('entries.jsonl') as Buffer).toString().trimEnd().split('\n');
const setLines = (files: Map<string, Buffer>, all: string[]) =>
  files.set('entries.jsonl', Buffer.from(all.map((line) => `${line}\n`).join('')));

describe('an archive', () => {
  test('holds the journal, every file, and what a person needs to read it', async () => {
    const files = await filesIn(path);
    const kinds = [...files.keys()].map((name) => name.replace(/[0-9a-f]{64}/, 'HASH'));
    expect(kinds).toEqual([
      'job.json',
      'README.txt',
      'entries.jsonl',
      'personal.jsonl',
      'recordings/HASH.wav',
      'recordings/HASH.wav',
      'tracks/HASH.json',
      'tracks/HASH.wav',
    ]);
    const chain = lines(files).map((line) => JSON.parse(line) as ChainedEntry);
    expect(chain).toEqual(await workshop.journals.entries('j1'));
    for (const [name, content] of files) {
      const hash = /([0-9a-f]{64})\.(wav|json)$/.exec(name)?.[1];
      if (hash !== undefined && !name.startsWith('tracks/') && name.endsWith('.wav')) {
        expect(hash).toBe(
          await import('node:crypto').then(({ createHash }) => createHash('sha256').update(content).digest('hex')),
        );
      }
    }
    const readme = (files.get('README.txt') as Buffer).toString();
    expect(readme).toContain('left door');
    expect(readme).toContain('with A off: not the car as it is driven');
    expect(readme).toContain(chain[chain.length - 1].hash);
    expect(readme).not.toContain('Wenbury');
  });

  test('is as large as it says before it starts', async () => {
    const archive = await archiveOf(workshop, 'j1', { personal: true });
    expect(archive.ok && archive.value.byteLength).toBe(statSync(path).size);
    expect(archive.ok && archive.value.name).toBe('job-0412.zip');
    if (archive.ok) archive.value.stream.destroy();
  });

  test('is refused where a file of the job is missing, and of a job that is not there', async () => {
    expect(await archiveOf(workshop, 'j9', { personal: true })).toMatchObject({ issues: [{ code: 'job-unknown' }] });
    const bare = { ...workshop, content: memoryWorkshop().content };
    expect(await archiveOf(bare, 'j1', { personal: true })).toMatchObject({
      issues: [{ code: 'recording-missing' }, { code: 'recording-missing' }, { code: 'track-missing' }],
    });
  });

  test('tells nothing of the person where that is left out, and is whole all the same', async () => {
    const bare = await exportTo(workshop, 'j1', join(folder, 'bare.zip'), false);
    expect(readFileSync(bare, 'latin1')).not.toContain('Wenbury');
    expect(readFileSync(path, 'latin1')).toContain('Wenbury');
    expect(await proofOf(bare)).toMatchObject({ whole: true, personalRecords: { held: 0, erased: 0, leftOut: 2 } });
    const other = memoryWorkshop('tablet');
    await importArchive(other, bare);
    expect((await jobView(other, 'j1'))?.personal).toMatchObject({ owner: { value: null } });
    expect(await verifyJob(other, 'j1')).toMatchObject({ value: { whole: true, personalRecords: { leftOut: 2 } } });
  });
});

describe('proving an archive', () => {
  test('finds it whole as it was written, and as another program packs it', async () => {
    expect(await proofOf(path)).toMatchObject({
      whole: true,
      head: await workshop.journals.head('j1'),
      recordings: 2,
      tracks: 1,
      personalRecords: { held: 2, erased: 0, leftOut: 0 },
      faults: [],
    });
    expect(await proofOf(await meddled(() => {}))).toMatchObject({ whole: true });
    const wide = await zipOf(await filesIn(path), join(folder, 'wide.zip'), true);
    expect(await proofOf(wide)).toMatchObject({ whole: true });
  });

  test.each([0, 1, 2, 3, 4, 5])('names entry %i when it was altered', async (index) => {
    const zip = await meddled((files) => {
      const all = lines(files);
      all[index] = all[index].replace('"who":"Ann"', '"who":"Bob"');
      setLines(files, all);
    });
    expect((await proofOf(zip)).faults[0]).toMatchObject({ code: 'entry-altered', position: index + 1 });
  });

  test('names the first altered entry even where all hashes were made anew and only the manifest was forgotten', async () => {
    const zip = await meddled((files) => {
      const all = lines(files).map((line) => JSON.parse(line) as ChainedEntry);
      all[2].who = 'Bob';
      setLines(
        files,
        chained(all, emptyHead, sha256).map((entry) => JSON.stringify(entry)),
      );
    });
    expect((await proofOf(zip)).faults[0]).toMatchObject({ code: 'end-differs' });
  });

  test('a journal rewritten whole is found out by a hash that was kept', async () => {
    const { hash } = await workshop.journals.head('j1');
    const zip = await meddled((files) => {
      const all = lines(files).map((line) => JSON.parse(line) as ChainedEntry);
      all[2].who = 'Bob';
      const anew = chained(all, emptyHead, sha256);
      setLines(
        files,
        anew.map((entry) => JSON.stringify(entry)),
      );
      const manifest = JSON.parse((files.get('job.json') as Buffer).toString());
      manifest.head.hash = anew[anew.length - 1].hash;
      manifest.files = [];
      files.set('job.json', Buffer.from(JSON.stringify(manifest)));
    });
    expect((await proofOf(zip)).whole).toBe(true);
    expect((await proofOf(zip, { keptHash: hash })).faults).toMatchObject([{ code: 'kept-hash-unknown' }]);
  });

  test.each([
    ['a recording changed', /^recordings/, (b: Buffer) => b.fill(7, 60, 70), 'recording-altered'],
    ['a recording left out', /^recordings/, null, 'recording-missing'],
    ['a track changed', /^tracks.*json/, () => Buffer.from('{}'), 'track-altered'],
    ["a track's sound changed", /^tracks.*wav/, (b: Buffer) => b.fill(7, 60, 70), 'file-altered'],
    ["a track's sound left out", /^tracks.*wav/, null, 'file-missing'],
    ['the README changed', /^README/, (b: Buffer) => Buffer.concat([b, Buffer.from('sold!')]), 'file-altered'],
    [
      'a person changed',
      /^personal/,
      (b: Buffer) => Buffer.from(b.toString().replace('Wenbury', 'Somebody')),
      'personal-altered',
    ],
    ['the personal data left out', /^personal/, null, 'personal-missing'],
  ])('notices %s', async (_, name, change, code) => {
    const zip = await meddled((files) => {
      const path = [...files.keys()].find((key) => name.test(key)) as string;
      if (change === null) files.delete(path);
      else files.set(path, change(Buffer.from(files.get(path) as Buffer)));
    });
    const { whole, faults } = await proofOf(zip);
    expect(whole).toBe(false);
    expect(faults.map((fault) => fault.code)).toContain(code);
  });

  test('says what is no archive', async () => {
    const half = join(folder, 'half.zip');
    writeFileSync(half, readFileSync(path));
    truncateSync(half, 20_000);
    const sound = join(folder, 'sound.zip');
    writeFileSync(sound, 'RIFF');
    const other = await zipOf(new Map([['readme.md', Buffer.from('hello')]]), join(folder, 'other.zip'));
    const broken = await meddled((files) => files.set('job.json', Buffer.from('{"schema":"kickpanel.archive/9"}')));
    for (const zip of [half, sound, other, broken]) {
      expect(await verifyArchive(zip)).toMatchObject({
        ok: false,
        issues: [{ code: 'archive-unreadable', where: zip }],
      });
    }
    await expect(verifyArchive(join(folder, 'nothing.zip'))).rejects.toMatchObject({ code: 'ENOENT' });
  });

  test('an entry that is no entry does not stop it', async () => {
    const zip = await meddled((files) => setLines(files, ['null', 'rubbish', ...lines(files).slice(2)]));
    expect((await proofOf(zip)).faults.slice(0, 2)).toMatchObject([
      { code: 'entry-unreadable', position: 1 },
      { code: 'entry-unreadable', position: 2 },
    ]);
  });
});

describe('taking in an archive', () => {
  test('makes the job, its files and its person anew, and a second time changes nothing', async () => {
    const other = memoryWorkshop('tablet');
    expect(await importArchive(other, path)).toEqual({
      ok: true,
      value: { job: 'j1', appended: 6, known: 0, recordings: 2, tracks: 1, photos: 0 },
    });
    expect(await jobView(other, 'j1')).toEqual(await jobView(workshop, 'j1'));
    expect(await verifyJob(other, 'j1')).toMatchObject({ value: { whole: true } });
    expect(await importArchive(other, path)).toMatchObject({
      value: { appended: 0, known: 6, recordings: 0, tracks: 0 },
    });
  });

  test('adds to a job that is there what it does not have', async () => {
    const other = memoryWorkshop('tablet');
    await importArchive(other, path);
    await does(other, 'j1', { command: 'addNote', text: 'on the tablet' });
    await does(workshop, 'j1', { command: 'addNote', text: 'on the bench' });
    const later = await exportTo(workshop, 'j1', join(folder, 'later.zip'));
    expect(await importArchive(other, later)).toMatchObject({ value: { appended: 1, known: 6 } });
    const notes = (await jobView(other, 'j1'))?.job.notes.map(({ text }) => text);
    expect(notes?.sort()).toEqual(['on the bench', 'on the tablet', 'the grille rattles']);
    expect(await verifyJob(other, 'j1')).toMatchObject({ value: { whole: true } });
  });

  test('does not bring back what was erased', async () => {
    await does(workshop, 'j1', { command: 'erasePersonal' });
    expect(await importArchive(workshop, path)).toMatchObject({ value: { appended: 0, known: 6 } });
    expect((await jobView(workshop, 'j1'))?.personal).toMatchObject({ owner: { value: null }, plate: { value: null } });
    const later = await exportTo(workshop, 'j1', join(folder, 'later.zip'));
    expect(readFileSync(later, 'latin1')).not.toContain('Wenbury');
    expect(await proofOf(later)).toMatchObject({ whole: true, personalRecords: { erased: 2 } });
  });

  test('is refused, with nothing taken in, where anything is not whole', async () => {
    const other = memoryWorkshop('tablet');
    const zip = await meddled((files) => {
      const all = lines(files);
      all[5] = all[5].replace('rattles', 'is silent');
      setLines(files, all);
    });
    expect(await importArchive(other, zip)).toMatchObject({
      ok: false,
      issues: [{ code: 'entry-altered', mend: expect.stringContaining('Nothing of this one was taken in') }, {}],
    });
    expect(await other.journals.heads()).toEqual(new Map());
    expect(await other.content.list('recordings')).toEqual([]);
  });
});
