import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type AppBench, appBench, origin, port } from '../../test/server/app-bench.ts';
import { isOwnHost } from './security.ts';

let bench: AppBench;
beforeAll(async () => {
  bench = await appBench();
});
afterAll(() => bench.clear());

const newJob = { job: 'j1', requests: [{ id: 'o1', who: 'Ann', wish: { command: 'createJob', name: 'x' } }] };
const post = (headers: Record<string, string>) =>
  bench.request('/api/jobs', {
    method: 'POST',
    body: JSON.stringify(newJob),
    headers: { 'content-type': 'application/json', ...headers },
  });

describe('the server goes by its own names only', () => {
  test.each([`localhost:${port}`, `127.0.0.1:${port}`, `[::1]:${port}`, `LOCALHOST:${port}`])('%s', async (host) => {
    expect((await bench.request('/api/jobs', { headers: { host } })).status).toBe(200);
  });

  test.each([
    'evil.example',
    `evil.example:${port}`,
    `localhost:${port + 1}`,
    'localhost',
    `localhost:${port}.evil.example`,
    `127.0.0.1.evil.example:${port}`,
    `192.168.1.5:${port}`,
    '',
  ])('not by "%s"', async (host) => {
    for (const path of ['/api/jobs', '/', '/assets/app-1a2b.js', '/api/events']) {
      const answer = await bench.request(path, { headers: { host } });
      expect(answer.status).toBe(421);
      expect(await answer.json()).toMatchObject({ error: { code: 'wrong-host', mend: `Open it as ${origin}/.` } });
    }
  });

  test('the port may be left out where it is the usual one', () => {
    expect(isOwnHost('localhost', 80)).toBe(true);
    expect(isOwnHost('localhost', 4870)).toBe(false);
  });
});

describe('writing is for its own pages and for programs', () => {
  test.each([
    { origin: 'https://evil.example' },
    { origin: 'null' },
    { origin: `https://localhost:${port}` },
    { origin: `http://localhost:${port + 1}` },
    { origin: `http://localhost:${port}.evil.example` },
    { 'sec-fetch-site': 'cross-site' },
    { 'sec-fetch-site': 'same-site' },
  ])('refused: %o', async (headers) => {
    const answer = await post(headers as Record<string, string>);
    expect(answer.status).toBe(403);
    expect(await answer.json()).toMatchObject({ error: { code: 'wrong-origin' } });
    expect(await bench.workshop.journals.heads()).toEqual(new Map());
  });

  test.each([
    {},
    { origin },
    { origin: `http://127.0.0.1:${port}`, 'sec-fetch-site': 'same-origin' },
    { 'sec-fetch-site': 'none' },
  ])('taken: %o', async (headers) => {
    expect((await post(headers as Record<string, string>)).status).toBeLessThan(300);
  });

  test('a page of another site may not delete either', async () => {
    const headers = { origin: 'https://evil.example' };
    const answer = await bench.request(`/api/readings/${'0'.repeat(64)}`, { method: 'DELETE', headers });
    expect(answer.status).toBe(403);
  });
});

test.each(['/', '/api/jobs', '/api/nothing', '/assets/app-1a2b.js', '/api/openapi.json'])(
  'every answer carries the strict headers: %s',
  async (path) => {
    const { headers } = await bench.request(path);
    const policy = headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).toContain("connect-src 'self'");
    expect(policy).not.toContain('unsafe');
    expect(policy).not.toMatch(/https?:/);
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
    expect(headers.get('cross-origin-opener-policy')).toBe('same-origin');
    expect(headers.get('referrer-policy')).toBe('no-referrer');
    expect(headers.get('access-control-allow-origin')).toBeNull();
    expect(headers.get('cache-control')).not.toBeNull();
  },
);
