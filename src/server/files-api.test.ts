import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { hashOfBytes, noiseWav } from '../../test/crash/busy-clients.ts';
import { shortTrack } from '../../test/job/workshops.ts';
import { type AppBench, appBench, runnerInThisThread } from '../../test/server/app-bench.ts';
import { canonicalJson } from '../job/canonical-json.ts';

let bench: AppBench;
let runner: ReturnType<typeof runnerInThisThread>;
beforeEach(async () => {
  runner = runnerInThisThread();
  bench = await appBench({ runner });
});
afterEach(() => bench.clear());

const wav = noiseWav(3, 100_044);
const put = (body: BodyInit, type = 'audio/wav', query = '') =>
  bench.send('PUT', `/api/recordings${query}`, body, type);

describe('a recording', () => {
  test('is kept as it is, described, and kept once', async () => {
    const kept = await put(wav);
    expect(kept.status).toBe(201);
    expect(kept.body).toEqual({
      sha256: hashOfBytes(wav),
      bytes: 100_044,
      wav: {
        rateHz: 48_000,
        channels: 1,
        frames: 100_000,
        durationS: 100_000 / 48_000,
        bits: 8,
        floatingPoint: false,
        notes: [],
      },
    });
    expect((await put(wav)).status).toBe(200);
    const back = await bench.get(`/api/recordings/${kept.body.sha256}`);
    expect(Buffer.from(back.body).equals(wav)).toBe(true);
    expect(back.headers.get('content-type')).toBe('audio/wav');
    expect(back.headers.get('cache-control')).toContain('immutable');
  });

  test('is given out in parts', async () => {
    const { sha256 } = (await put(wav)).body;
    const part = await bench.request(`/api/recordings/${sha256}`, { headers: { range: 'bytes=44-143' } });
    expect(part.status).toBe(206);
    expect(new Uint8Array(await part.arrayBuffer())).toEqual(wav.subarray(44, 144));
    const head = await bench.request(`/api/recordings/${sha256}`, { method: 'HEAD' });
    expect([head.status, head.headers.get('content-length')]).toEqual([200, '100044']);
  });

  test('that broke off at its end is kept with a note', async () => {
    const short = noiseWav(3, 100_044).subarray(0, 50_000);
    const kept = await put(short);
    expect(kept.status).toBe(201);
    expect(kept.body.wav).toMatchObject({ frames: 49_956, notes: [{ code: 'data-cut-short' }] });
  });

  test.each([
    ['no sound', 'hello', 'audio/wav', '', 422, 'not-a-wav'],
    ['nothing', '', 'audio/wav', '', 422, 'empty'],
    ['another type', wav, 'text/html', '', 415, 'not-this-content'],
    ['other content than announced', wav, 'audio/wav', `?sha256=${'0'.repeat(64)}`, 422, 'content-differs'],
    ['a hash that is none', wav, 'audio/wav', '?sha256=x', 400, 'field-invalid'],
  ])('is refused when it is %s', async (_, body, type, query, status, code) => {
    expect(await put(body as BodyInit, type, query)).toMatchObject({ status, body: { error: { code } } });
    expect(await bench.workshop.content.list('recordings')).toEqual([]);
    expect(readdirSync(join(bench.folder, 'incoming'))).toEqual([]);
  });

  test('whose sender goes away leaves nothing', async () => {
    const body = new ReadableStream({
      start(controller) {
        controller.enqueue(wav.subarray(0, 1000));
      },
      pull: () => Promise.reject(new Error('gone')),
    });
    const answer = await bench.request('/api/recordings', {
      method: 'PUT',
      body,
      headers: { 'content-type': 'audio/wav' },
      duplex: 'half',
    } as RequestInit);
    expect(answer.status).toBe(400);
    expect(await answer.json()).toMatchObject({ error: { code: 'upload-broken-off' } });
    expect(bench.faults).toEqual([]);
    expect(readdirSync(join(bench.folder, 'incoming'))).toEqual([]);
    expect(await bench.workshop.content.list('recordings')).toEqual([]);
  });

  test('that is not there is said not to be there', async () => {
    expect(await bench.get(`/api/recordings/${'0'.repeat(64)}`)).toMatchObject({
      status: 404,
      body: { error: { code: 'recording-unknown' } },
    });
    expect((await bench.get('/api/recordings/..%2fdevice')).status).toBe(400);
  });
});

describe('a track', () => {
  test('is made from what is asked, called after its description, and comes as sound', async () => {
    const made = await bench.send('POST', '/api/tracks', { kind: 'pair', rateHz: 32_000 });
    expect(made.status).toBe(201);
    const { sha256, track, cautions } = made.body;
    expect(track).toEqual(JSON.parse(JSON.stringify(shortTrack())));
    expect(hashOfBytes(new TextEncoder().encode(`${canonicalJson(track)}\n`))).toBe(sha256);
    expect(cautions).toEqual(expect.any(Array));
    expect((await bench.send('POST', '/api/tracks', { kind: 'pair', rateHz: 32_000 })).status).toBe(200);
    expect((await bench.get(made.body.json)).body).toEqual(track);
    const sound = await bench.get(made.body.wav);
    expect(sound.headers.get('content-type')).toBe('audio/wav');
    expect(Buffer.from(sound.body.subarray(0, 4)).toString()).toBe('RIFF');
    const part = await bench.request(made.body.wav, { headers: { range: 'bytes=0-99' } });
    expect([part.status, (await part.arrayBuffer()).byteLength]).toEqual([206, 100]);
    expect(runner.runs).toBe(1);
  });

  test('asked for by several at once is made once', async () => {
    const { body } = await bench.send('POST', '/api/tracks', { kind: 'pair', rateHz: 32_000 });
    const all = await Promise.all([bench.get(body.wav), bench.get(body.wav), bench.get(body.wav)]);
    expect(all.map(({ status }) => status)).toEqual([200, 200, 200]);
    expect(runner.runs).toBe(1);
  });

  test('that breaks a rule is refused with the field', async () => {
    const bad = await bench.send('POST', '/api/tracks', { kind: 'sweep', fromHz: 500, toHz: 100 });
    expect(bad.status).toBe(422);
    expect(bad.body.error).toMatchObject({ code: expect.any(String), where: expect.any(String) });
    expect((await bench.send('POST', '/api/tracks', { kind: 'sweep', rateHz: 12_345 })).status).toBe(400);
    expect((await bench.send('POST', '/api/tracks', { kind: 'sweep', loud: true })).status).toBe(400);
  });

  test('of another program is kept by its description; without all of it there is no sound', async () => {
    const foreign = { ...shortTrack(), segments: [{ kind: 'whistle', startS: 0, durationS: 1 }] };
    const kept = await bench.send('PUT', '/api/tracks', foreign);
    expect(kept).toMatchObject({ status: 201, body: { wav: null } });
    expect((await bench.get(kept.body.json)).body).toEqual(JSON.parse(JSON.stringify(foreign)));
    expect(await bench.get(`/api/tracks/${kept.body.sha256}.wav`)).toMatchObject({
      status: 422,
      body: { error: { code: 'track-unplayable' } },
    });
  });

  test('that contradicts itself is refused, with the field', async () => {
    const [first, ...rest] = shortTrack().segments;
    const bad = { ...shortTrack(), segments: [{ ...first, durationS: 7000 }, ...rest] };
    expect(await bench.send('PUT', '/api/tracks', bad)).toMatchObject({
      status: 422,
      body: { error: { code: 'track-contradicts-itself', where: 'segments[0].durationS' } },
    });
  });

  test('that is not there is said not to be there', async () => {
    for (const ending of ['json', 'wav']) {
      expect(await bench.get(`/api/tracks/${'0'.repeat(64)}.${ending}`)).toMatchObject({
        status: 404,
        body: { error: { code: 'track-unknown' } },
      });
    }
    expect((await bench.get(`/api/tracks/${'0'.repeat(64)}.mp3`)).status).toBe(400);
  });
});

describe("the shop's microphones", () => {
  test('are entered, calibrated anew, and listed', async () => {
    expect((await bench.get('/api/microphones')).body).toEqual({ microphones: [] });
    const first = { id: 'c1', who: 'Ann', microphone: 'm1', name: 'M-14', fullScaleSplDb: 120 };
    await bench.send('POST', '/api/microphones', first);
    const { body } = await bench.send('POST', '/api/microphones', { ...first, id: 'c2', fullScaleSplDb: 121 });
    expect(body.microphones).toMatchObject([{ microphone: 'm1', name: 'M-14', fullScaleSplDb: 121, who: 'Ann' }]);
    expect((await bench.get('/api/microphones')).body).toEqual(body);
    expect((await bench.get('/api/jobs')).body.jobs).toEqual([]);
  });

  test('have correction files of every habit', async () => {
    const read = await bench.send(
      'POST',
      '/api/microphones/correction',
      '* made up\n20 -1.5\n1000\t0\n20000 2',
      'text/plain',
    );
    expect(read.body).toMatchObject({ correction: { fHz: [20, 1000, 20_000], deviationDb: [-1.5, 0, 2] } });
    expect(await bench.send('POST', '/api/microphones/correction', 'hello', 'text/plain')).toMatchObject({
      status: 422,
    });
  });
});

test('the server says what it is', async () => {
  expect((await bench.get('/api/about')).body).toEqual({
    name: 'Kickpanel',
    version: '0.0.0',
    readerVersion: 'test-1',
    device: 'bench',
    dataFolder: bench.folder,
  });
});
