import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { noiseWav } from '../../test/crash/busy-clients.ts';
import { folderWorkshop } from '../../test/job/workshops.ts';
import { type AppBench, appBench, runnerInThisThread, type Said } from '../../test/server/app-bench.ts';
import { readTake } from '../measurement/read-take.ts';
import { byteSourceFromArray } from '../signals/recording.ts';
import { readWav } from '../signals/wav/read-wav.ts';

const wav = readFileSync('examples/door.wav');
const track = JSON.parse(readFileSync('examples/door.track.json', 'utf8'));

let bench: AppBench;
let runner: ReturnType<typeof runnerInThisThread>;
let open: () => void;
let files: { recording: string; track: string };

/** Readings wait until the test opens the gate. */
beforeEach(async () => {
  const gate = new Promise<void>((resolve) => {
    open = resolve;
  });
  runner = runnerInThisThread(() => gate);
  bench = await appBench({ runner });
  const recording = await bench.send('PUT', '/api/recordings', wav, 'audio/wav');
  const kept = await bench.send('PUT', '/api/tracks', track);
  files = { recording: recording.body.sha256, track: kept.body.sha256 };
});
afterEach(() => bench.clear());

const start = (more: object = {}, on = bench) => on.send('POST', '/api/readings', { ...files, ...more });

/** Server-sent events of an answer, until it ends. */
async function events(path: string, on = bench): Promise<{ event: string; data: Said['body'] }[]> {
  const text = await (await on.request(path)).text();
  return text
    .split('\n\n')
    .filter((block) => block.startsWith('event:'))
    .map((block) => ({
      event: /^event: (.*)$/m.exec(block)?.[1] ?? '',
      data: JSON.parse(/^data: (.*)$/m.exec(block)?.[1] ?? 'null'),
    }));
}

describe('a reading', () => {
  test('is begun, watched, and is what the reader itself says', async () => {
    const begun = await start();
    expect(begun).toMatchObject({ status: 202, body: { state: 'waiting', share: 0, ...files } });
    const { id } = begun.body;
    const watched = events(`/api/readings/${id}/events`);
    // The reading holds this thread until it is done, so the watcher must be there before.
    await new Promise((resolve) => setTimeout(resolve, 50));
    open();
    const news = await watched;
    expect(news.length).toBeGreaterThan(3);
    expect(news.at(-1)).toMatchObject({ event: 'done', data: { id, state: 'done', share: 1, impulse: true } });
    expect(news.every(({ data }) => data.reading === undefined)).toBe(true);
    const shares = news.map(({ data }) => data.share);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    const read = readWav(byteSourceFromArray(wav));
    if (!read.ok) throw new Error('the example must be readable');
    const { reading, impulse } = readTake(read.value.recording, track);
    const shown = await bench.get(`/api/readings/${id}`);
    expect(shown.body.reading).toEqual(JSON.parse(JSON.stringify(reading)));
    const wave = await bench.get(`/api/readings/${id}/impulse`);
    expect(wave.headers.get('kickpanel-arrival-index')).toBe(String(impulse?.arrivalIndex));
    const decoded = readWav(byteSourceFromArray(wave.body));
    expect(decoded.ok && decoded.value.recording.frames).toBe(impulse?.samples.length);
  });

  test('asked for again is the same and costs nothing', async () => {
    open();
    const { id } = (await start()).body;
    await events(`/api/readings/${id}/events`);
    const again = await start();
    expect([again.status, again.body.id, again.body.state]).toEqual([200, id, 'done']);
    expect((await start({ options: {} })).body.id).toBe(id);
    expect(runner.runs).toBe(1);
    expect(await events(`/api/readings/${id}/events`)).toMatchObject([{ event: 'done' }]);
  });

  test('with other options is another reading', async () => {
    const first = (await start()).body.id;
    const second = (await start({ options: { smoothOctaves: 0 } })).body.id;
    expect(second).not.toBe(first);
    open();
    await events(`/api/readings/${second}/events`);
  });

  test('survives a new start of the server, but not a new reader', async () => {
    open();
    const { id } = (await start()).body;
    await events(`/api/readings/${id}/events`);
    const first = await bench.get(`/api/readings/${id}`);
    const impulse = await bench.get(`/api/readings/${id}/impulse`);
    const folder = await folderWorkshop(bench.folder);
    const idle = runnerInThisThread();
    const same = await appBench({ bench: folder, runner: idle });
    expect((await same.get(`/api/readings/${id}`)).body).toEqual(first.body);
    expect((await same.get(`/api/readings/${id}/impulse`)).body).toEqual(impulse.body);
    expect((await start({}, same)).status).toBe(200);
    expect(idle.runs).toBe(0);
    const newer = await appBench({ bench: folder, runner: idle, version: 'test-2' });
    expect((await newer.get(`/api/readings/${id}`)).status).toBe(404);
    const anew = await start({}, newer);
    expect(anew.body.id).not.toBe(id);
    await events(`/api/readings/${anew.body.id}/events`, newer);
    expect((await newer.get(`/api/readings/${anew.body.id}`)).body.reading).toEqual(first.body.reading);
    await folder.close();
  });

  test('kept in a cache that was spoilt or emptied is computed again', async () => {
    open();
    const { id } = (await start()).body;
    await events(`/api/readings/${id}/events`);
    const cache = join(bench.folder, 'cache', 'test-1');
    const later = async () => appBench({ bench: await folderWorkshop(bench.folder), runner });
    for (const rubbish of ['{', '{}', 'null', JSON.stringify({ state: { id: 'other' } })]) {
      writeFileSync(join(cache, `${id}.json`), rubbish);
      expect((await (await later()).get(`/api/readings/${id}`)).status).toBe(404);
    }
    rmSync(cache, { recursive: true });
    const emptied = await later();
    expect((await start({}, emptied)).status).toBe(202);
    await events(`/api/readings/${id}/events`, emptied);
    expect(runner.runs).toBe(2);
  });

  test('can be cancelled while it waits or runs, and begun again', async () => {
    const { id } = (await start()).body;
    const watched = events(`/api/readings/${id}/events`);
    expect(await bench.send('DELETE', `/api/readings/${id}`, '')).toMatchObject({
      status: 200,
      body: { state: 'cancelled' },
    });
    expect((await watched).at(-1)).toMatchObject({ event: 'cancelled' });
    const again = await start();
    expect([again.status, again.body.id]).toEqual([202, id]);
    open();
    expect((await events(`/api/readings/${id}/events`)).at(-1)).toMatchObject({ event: 'done' });
    expect((await bench.send('DELETE', `/api/readings/${id}`, '')).body.state).toBe('done');
    expect(runner.runs).toBe(1);
  });

  test('of what cannot be read says so as its state', async () => {
    open();
    const noise = (await bench.send('PUT', '/api/recordings', noiseWav(9, 200_000), 'audio/wav')).body.sha256;
    const { id } = (await start({ recording: noise })).body;
    await events(`/api/readings/${id}/events`);
    const { body } = await bench.get(`/api/readings/${id}`);
    expect(body).toMatchObject({ state: 'done', reading: { quality: { usable: false } } });
    const other = (await start({ options: { input: 3 } })).body.id;
    expect((await events(`/api/readings/${other}/events`)).at(-1)).toMatchObject({
      event: 'failed',
      data: { state: 'failed', error: { code: 'no-such-input' } },
    });
    expect((await bench.get(`/api/readings/${other}/impulse`)).status).toBe(404);
  });

  test('needs a recording and a track that are there, and options that make sense', async () => {
    const nothing = '0'.repeat(64);
    expect(await start({ recording: nothing, track: nothing })).toMatchObject({
      status: 404,
      body: { error: { code: 'recording-unknown', issues: [{}, { code: 'track-unknown' }] } },
    });
    for (const options of [{ bandHz: { low: 500, high: 100 } }, { loud: true }, { input: -1 }]) {
      expect((await start({ options })).status).toBe(400);
    }
    for (const path of ['', '/events', '/impulse']) {
      expect((await bench.get(`/api/readings/${nothing}${path}`)).status).toBe(404);
    }
    expect((await bench.send('DELETE', `/api/readings/${nothing}`, '')).status).toBe(404);
  });

  test('a breakdown of the reader is told as a fault, and the next call tries again', async () => {
    let broken = true;
    const real = runnerInThisThread();
    const breaking = {
      ...real,
      run: (...words: Parameters<typeof real.run>) =>
        broken ? { done: Promise.reject(new Error('out of memory')), cancel: () => {} } : real.run(...words),
    };
    const other = await appBench({ bench: await folderWorkshop(bench.folder), runner: breaking });
    const { id } = (await start({}, other)).body;
    expect((await events(`/api/readings/${id}/events`, other)).at(-1)).toMatchObject({
      event: 'failed',
      data: { error: { code: 'internal', message: 'out of memory' } },
    });
    broken = false;
    expect((await start({}, other)).status).toBe(202);
    expect((await events(`/api/readings/${id}/events`, other)).at(-1)).toMatchObject({ event: 'done' });
  });
});
