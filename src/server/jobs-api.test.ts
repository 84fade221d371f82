import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { noiseWav } from '../../test/crash/busy-clients.ts';
import { folderWorkshop, freshFolder, fullJob } from '../../test/job/workshops.ts';
import { type AppBench, appBench } from '../../test/server/app-bench.ts';
import { storeFailure } from '../store/failure.ts';

let bench: AppBench;
beforeEach(async () => {
  bench = await appBench();
});
afterEach(() => bench.clear());

const opening = { id: 'o1', who: 'Ann', wish: { command: 'createJob', name: 'Four door speakers', number: '0412' } };
const vehicle = { id: 'v1', who: 'Ann', wish: { command: 'describeVehicle', bodyType: 'van', plate: 'WB 12 XYZ' } };
const newJob = { job: 'j1', requests: [opening, vehicle] };
const note = (id: string, text = 'x') => ({ id, who: 'Ann', wish: { command: 'addNote', text } });

describe('a job', () => {
  test('is made with what is known of it, is listed, shown, and made only once', async () => {
    const made = await bench.send('POST', '/api/jobs', newJob);
    expect(made.status).toBe(201);
    expect(made.body).toMatchObject({
      appended: [
        { id: 'o1', kind: 'job-created' },
        { id: 'v1', kind: 'vehicle-described' },
      ],
      known: [],
      view: {
        job: { id: 'j1', name: 'Four door speakers', number: '0412', vehicle: { bodyType: 'van' } },
        personal: { plate: { value: 'WB 12 XYZ' } },
        waits: [{ code: 'track-missing' }, { code: 'take-missing' }],
        head: { entries: 2 },
      },
    });
    const again = await bench.send('POST', '/api/jobs', newJob);
    expect([again.status, again.body.known, again.body.appended]).toEqual([200, ['o1', 'v1'], []]);
    expect((await bench.get('/api/jobs')).body.jobs).toMatchObject([{ id: 'j1', entries: 2, takes: 0 }]);
    expect((await bench.get('/api/jobs/j1')).body).toEqual(made.body.view);
  });

  test('gets a name of its own where none is given', async () => {
    const { body } = await bench.send('POST', '/api/jobs', { requests: [opening] });
    expect(body.view.job.id).toMatch(/./);
  });

  test('that is not there is said not to be there, everywhere', async () => {
    for (const path of ['/api/jobs/j9', '/api/jobs/j9/entries', '/api/jobs/j9/verify', '/api/jobs/j9/export']) {
      expect(await bench.get(path)).toMatchObject({
        status: 404,
        body: { error: { code: 'job-unknown', where: 'j9' } },
      });
    }
    expect(await bench.send('POST', '/api/jobs/j9/entries', { requests: [note('n1')] })).toMatchObject({ status: 404 });
  });

  test('begins with the wish to create it', async () => {
    expect(await bench.send('POST', '/api/jobs', { requests: [note('n1')] })).toMatchObject({
      status: 400,
      body: { error: { code: 'job-not-created' } },
    });
  });
});

describe('wishes', () => {
  beforeEach(async () => {
    await bench.send('POST', '/api/jobs', newJob);
  });

  test('come with the job as it stands after them', async () => {
    const { status, body } = await bench.send('POST', '/api/jobs/j1/entries', { requests: [note('n1', 'hello')] });
    expect(status).toBe(201);
    expect(body.view.job.notes).toMatchObject([{ text: 'hello', who: 'Ann' }]);
    expect(body.view.job.undoable).toMatchObject({ entry: 'n1', says: 'noted "hello"' });
  });

  test('sent again are known', async () => {
    await bench.send('POST', '/api/jobs/j1/entries', { requests: [note('n1')] });
    const again = await bench.send('POST', '/api/jobs/j1/entries', { requests: [note('n1')] });
    expect([again.status, again.body.known]).toEqual([200, ['n1']]);
  });

  test('that are refused come with the reason and the way out', async () => {
    const undo = { id: 'u1', who: 'Ann', wish: { command: 'undo', entry: 'o1' } };
    expect(await bench.send('POST', '/api/jobs/j1/entries', { requests: [undo] })).toMatchObject({
      status: 409,
      body: { error: { code: 'not-undoable', mend: expect.any(String) } },
    });
  });

  test.each([
    ['no JSON', '{', 400],
    ['nothing asked', { requests: [] }, 400],
    ['a wish nobody has', { requests: [{ id: 'n', who: 'A', wish: { command: 'explode' } }] }, 400],
    ['nobody', { requests: [{ ...note('n'), who: ' ' }] }, 400],
    ['an id with a slash', { requests: [note('a/b')] }, 400],
    ['a time that is none', { requests: [{ ...note('n'), when: 'yesterday' }] }, 400],
    ['half a character', { requests: [note('n', '\ud800')] }, 422],
  ])('are understood or refused: %s', async (_, body, status) => {
    const text = typeof body === 'string' ? body : JSON.stringify(body);
    const answer = await bench.send('POST', '/api/jobs/j1/entries', text);
    expect(answer.status).toBe(status);
    expect(answer.body.error).toMatchObject({ code: expect.any(String), message: expect.any(String) });
    expect((await bench.get('/api/jobs/j1')).body.head.entries).toBe(2);
  });

  test('as something else than JSON are not taken', async () => {
    const answer = await bench.send('POST', '/api/jobs/j1/entries', 'x', 'text/plain');
    expect(answer.status).toBeGreaterThanOrEqual(400);
    expect(answer.body.error.code).toBe('not-understood');
  });

  test('larger than any are refused before they are read', async () => {
    const answer = await bench.send('POST', '/api/jobs/j1/entries', {
      requests: [note('n', 'x'.repeat(33 * 2 ** 20))],
    });
    expect(answer).toMatchObject({ status: 413, body: { error: { code: 'too-large' } } });
  });
});

describe('a take', () => {
  test('follows its recording and its track', async () => {
    await bench.send('POST', '/api/jobs', newJob);
    const wav = noiseWav(5, 9000);
    const recording = await bench.send('PUT', '/api/recordings', wav, 'audio/wav');
    const track = await bench.send('POST', '/api/tracks', { kind: 'pair', rateHz: 32_000 });
    const take = {
      id: 't1',
      who: 'Ann',
      wish: {
        command: 'recordTake',
        name: 'door',
        recording: recording.body.sha256,
        bytes: 9000,
        track: track.body.sha256,
      },
    };
    expect((await bench.send('POST', '/api/jobs/j1/entries', { requests: [take] })).status).toBe(201);
    expect((await bench.get('/api/jobs/j1/verify')).body).toMatchObject({ whole: true, recordings: 1, tracks: 1 });
    const lost = { ...take, id: 't2', wish: { ...take.wish, recording: '0'.repeat(64) } };
    expect(await bench.send('POST', '/api/jobs/j1/entries', { requests: [lost] })).toMatchObject({
      status: 409,
      body: { error: { code: 'recording-missing' } },
    });
  });
});

test('entries of another device come in as they were written', async () => {
  await fullJob(bench.workshop);
  const { entries, head } = (await bench.get('/api/jobs/j1/entries')).body;
  expect(entries).toHaveLength(6);
  expect((await bench.get('/api/jobs/j1/entries?after=4')).body.entries).toEqual(entries.slice(4));
  expect(head).toEqual({ entries: 6, hash: entries[5].hash });
  const foreign = { ...entries[5], id: 'far-1', device: 'tablet', sequence: 1 };
  const taken = await bench.send('POST', '/api/jobs/j1/entries', { entries: [entries[0], foreign] });
  expect([taken.status, taken.body.known.length, taken.body.appended.length]).toEqual([201, 1, 1]);
  const differs = await bench.send('POST', '/api/jobs/j1/entries', { entries: [{ ...foreign, who: 'Bob' }] });
  expect(differs).toMatchObject({ status: 409, body: { error: { code: 'entry-differs', where: 'entry far-1' } } });
});

test('a job goes out as an archive and comes in elsewhere, whole', async () => {
  await fullJob(bench.workshop);
  const out = await bench.request('/api/jobs/j1/export');
  const archive = new Uint8Array(await out.arrayBuffer());
  expect(out.headers.get('content-type')).toBe('application/zip');
  expect(out.headers.get('content-length')).toBe(String(archive.length));
  expect(out.headers.get('content-disposition')).toBe('attachment; filename="job-0412.zip"');
  const bare = new Uint8Array(await (await bench.request('/api/jobs/j1/export?personal=no')).arrayBuffer());
  expect(Buffer.from(bare).includes('Wenbury')).toBe(false);

  const other = await appBench({ bench: await folderWorkshop(freshFolder(), { device: 'tablet' }) });
  const came = await other.send('POST', '/api/import', archive, 'application/zip');
  expect(came).toMatchObject({ status: 201, body: { job: 'j1', appended: 6, recordings: 2, tracks: 1 } });
  expect((await other.send('POST', '/api/import', archive, 'application/zip')).status).toBe(200);
  expect((await other.get('/api/jobs/j1/verify')).body.whole).toBe(true);
  archive[archive.length >> 1] ^= 1;
  const third = await appBench({ bench: await folderWorkshop(freshFolder(), { device: 'third' }) });
  const spoilt = await third.send('POST', '/api/import', archive, 'application/zip');
  expect(spoilt).toMatchObject({ status: 422, body: { error: { mend: expect.stringContaining('Nothing') } } });
  expect((await third.send('POST', '/api/import', 'hello', 'application/zip')).body.error.code).toBe(
    'archive-unreadable',
  );
  expect((await third.get('/api/jobs')).body.jobs).toEqual([]);
  await Promise.all([other.clear(), third.clear()]);
});

test('verify names what is wrong, and knows a hash that was kept', async () => {
  await fullJob(bench.workshop);
  const { head } = (await bench.get('/api/jobs/j1/verify')).body;
  expect((await bench.get(`/api/jobs/j1/verify?hash=${head.hash}`)).body.whole).toBe(true);
  expect((await bench.get(`/api/jobs/j1/verify?hash=${'f'.repeat(64)}`)).body.faults).toMatchObject([
    { code: 'kept-hash-unknown' },
  ]);
  expect((await bench.get('/api/jobs/j1/verify?hash=x')).status).toBe(400);
  const [recording] = await bench.workshop.content.list('recordings');
  writeFileSync(join(bench.folder, 'recordings', recording.slice(0, 2), `${recording}.wav`), 'spoilt');
  expect((await bench.get('/api/jobs/j1/verify')).body).toMatchObject({
    whole: false,
    faults: [{ code: 'recording-altered', where: recording }],
  });
});

test('a disk that is full is told as such, and a fault of ours as one', async () => {
  await bench.send('POST', '/api/jobs', newJob);
  const real = bench.workshop.journals.append;
  const journals = bench.workshop.journals as { append: typeof real };
  journals.append = () => Promise.reject(storeFailure({ code: 'disk-full', message: 'The disk is full.' }, null));
  expect(await bench.send('POST', '/api/jobs/j1/entries', { requests: [note('n1')] })).toMatchObject({
    status: 507,
    body: { error: { code: 'disk-full' } },
  });
  journals.append = () => Promise.reject(new Error('a bug'));
  expect(await bench.send('POST', '/api/jobs/j1/entries', { requests: [note('n1')] })).toMatchObject({
    status: 500,
    body: { error: { code: 'internal', message: 'a bug' } },
  });
  expect(bench.faults).toMatchObject([{ message: 'a bug' }]);
  journals.append = real;
  expect((await bench.send('POST', '/api/jobs/j1/entries', { requests: [note('n1')] })).status).toBe(201);
});

test('every call and every form is described', async () => {
  const { body } = await bench.get('/api/openapi.json');
  expect(body.openapi).toBe('3.1.0');
  expect(Object.keys(body.paths)).toEqual(
    expect.arrayContaining(['/api/jobs/{job}/entries', '/api/recordings', '/api/readings/{id}/events', '/api/import']),
  );
  for (const call of Object.values(body.paths).flatMap((path) => Object.values(path as object))) {
    expect(call.summary).toEqual(expect.any(String));
    expect(Object.keys(call.responses).some((status) => status.startsWith('2'))).toBe(true);
    expect(call.responses['400'].content['application/json'].schema.$ref).toBe('#/components/schemas/Error');
  }
});
