import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { hashOfBytes } from '../../test/crash/busy-clients.ts';
import { jpegPhoto, pngPhoto } from '../../test/job/photos.ts';
import { type AppBench, appBench } from '../../test/server/app-bench.ts';

let bench: AppBench;
beforeEach(async () => {
  bench = await appBench({});
});
afterEach(() => bench.clear());

const jpeg = jpegPhoto('sill', { widthPx: 64, heightPx: 48 });
const put = (body: BodyInit, type = 'image/jpeg', query = '') => bench.send('PUT', `/api/photos${query}`, body, type);

describe('a photo', () => {
  test('is kept as it is, told by its content, and served so that nothing in it can run', async () => {
    const kept = await put(new Uint8Array(jpeg), 'image/png');
    expect(kept).toMatchObject({
      status: 201,
      body: { sha256: hashOfBytes(jpeg), bytes: jpeg.length, type: 'jpeg', widthPx: 64, heightPx: 48 },
    });
    expect((await put(new Uint8Array(jpeg))).status).toBe(200);
    const back = await bench.get(`/api/photos/${kept.body.sha256}`);
    expect(Buffer.from(back.body).equals(jpeg)).toBe(true);
    expect(back.headers.get('content-type')).toBe('image/jpeg');
    expect(back.headers.get('x-content-type-options')).toBe('nosniff');
    expect(back.headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(back.headers.get('cache-control')).toContain('immutable');
    const png = await put(new Uint8Array(pngPhoto()), 'image/jpeg');
    expect((await bench.get(`/api/photos/${png.body.sha256}`)).headers.get('content-type')).toBe('image/png');
  });

  test.each([
    ['a drawing that could run', '<svg xmlns="http://www.w3.org/2000/svg"/>', 'image/jpeg', '', 422, 'not-a-photo'],
    ['a page', '<!doctype html>', 'image/png', '', 422, 'not-a-photo'],
    ['sent as a drawing', new Uint8Array(jpeg), 'image/svg+xml', '', 415, 'not-this-content'],
    ['cut short', new Uint8Array(jpeg.subarray(0, 100)), 'image/jpeg', '', 422, 'photo-cut-short'],
    ['another than announced', new Uint8Array(jpeg), 'image/jpeg', `?sha256=${'0'.repeat(64)}`, 422, 'content-differs'],
    ['too large', new Uint8Array(41e6), 'image/jpeg', '', 413, 'too-large'],
  ])('is refused when it is %s', async (_, body, type, query, status, code) => {
    expect(await put(body as BodyInit, type, query)).toMatchObject({ status, body: { error: { code } } });
    expect(await bench.workshop.content.list('photos')).toEqual([]);
    expect(readdirSync(join(bench.folder, 'incoming'))).toEqual([]);
  });

  test('that is not there is said not to be there', async () => {
    expect(await bench.get(`/api/photos/${'0'.repeat(64)}`)).toMatchObject({
      status: 404,
      body: { error: { code: 'photo-unknown' } },
    });
    expect((await bench.get('/api/photos/..%2fdevice')).status).toBe(400);
  });
});
