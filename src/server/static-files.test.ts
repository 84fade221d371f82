import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppBench, appBench } from '../../test/server/app-bench.ts';
import { pathWithin } from './static-files.ts';

let bench: AppBench;
beforeAll(async () => {
  bench = await appBench();
});
afterAll(() => bench.clear());

const text = async (path: string) => (await bench.request(path)).text();

test('what the build names by content is kept for ever, the first page is asked for each time', async () => {
  const asset = await bench.request('/assets/app-1a2b.js');
  expect(asset.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
  expect(asset.headers.get('cache-control')).toBe('public, max-age=31536000, immutable');
  const page = await bench.request('/');
  expect(page.headers.get('content-type')).toMatch(/^text\/html/);
  expect(page.headers.get('cache-control')).toBe('no-cache');
});

test('every other address is a place in the app, but a file that is not there is not', async () => {
  for (const path of ['/', '/jobs/0412', '/jobs/0412/takes', '/index.html']) {
    expect(await text(path)).toContain('<title>Kickpanel</title>');
  }
  for (const path of ['/assets/gone.js', '/favicon.ico', '/jobs/x.js']) {
    expect((await bench.get(path)).status).toBe(404);
  }
  expect((await bench.get('/api/nothing')).body).toMatchObject({
    error: { code: 'no-such-call', where: 'GET /api/nothing' },
  });
  expect((await bench.send('POST', '/', '{}')).status).toBe(404);
});

test('nothing outside the folder is served', async () => {
  for (const path of ['/../secret.txt', '/%2e%2e/secret.txt', '/assets/..%2f..%2fsecret.txt', '/..%5csecret.txt']) {
    expect(await text(path)).not.toContain('not for pages');
  }
  const folder = join('/srv', 'web');
  for (const bad of ['/../x', '/a/../../x', '/%2e%2e%2fx', '/.env', '/a/.git/config', '/%00', '/%E0%A4%A', '/..']) {
    expect(pathWithin(folder, bad)).toBeNull();
  }
  expect(pathWithin(folder, '/a/b.js')).toBe(join(folder, 'a', 'b.js'));
});

test('without built pages it says so', async () => {
  const bare = await appBench();
  rmSync(join(bare.folder, 'web', 'index.html'));
  const answer = await bare.request('/');
  expect(answer.status).toBe(200);
  expect(await answer.text()).toContain('The pages are not built.');
  await bare.clear();
});
