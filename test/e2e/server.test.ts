// The real server in its own process, as a browser and a script meet it.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { connect } from 'node:net';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { crashRounds } from '../crash/crash-rounds.ts';
import { type RunningProcess, startProcess } from '../crash/running-server.ts';
import { type Workbench, workbench } from './kickpanel.ts';

const wav = readFileSync('examples/door.wav');
const track = readFileSync('examples/door.track.json', 'utf8');

let bench: Workbench;
let server: RunningProcess | undefined;
beforeEach(() => {
  bench = workbench();
});
afterEach(async () => {
  await server?.kill();
  server = undefined;
  bench.clear();
});

async function started(): Promise<RunningProcess> {
  server = await startProcess(bench.path('data'));
  return server;
}

// biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every form
async function send(url: string, method: string, body?: unknown, type = 'application/json'): Promise<any> {
  const content = type === 'application/json' && typeof body === 'object' ? JSON.stringify(body) : (body as BodyInit);
  const answer = await fetch(url, { method, body: content ?? null, headers: { 'content-type': type } });
  return answer.json();
}

/** Memory of a process that is in real use, MB. */
function memoryMb(pid: number): number {
  if (existsSync(`/proc/${pid}/status`)) {
    return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;
  }
  return Number(spawnSync('ps', ['-o', 'rss=', '-p', String(pid)], { encoding: 'utf8' }).stdout) / 1024;
}

/**
 * Time that a process has spent computing, ms: what its work takes where nothing else runs. Tests run side by side, so the
 * wall clock counts the others too; where there is no such count it has to do.
 */
function spentMs(pid: number): number {
  if (!existsSync(`/proc/${pid}/stat`)) return performance.now();
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1].split(' ');
  // User and system time in ticks of 10 ms.
  return 10 * (Number(fields[11]) + Number(fields[12]));
}

/** A file of 200 MB, made while it is sent. */
async function* largeWav(bytes: number): AsyncGenerator<Uint8Array> {
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(bytes - 8, 4);
  head.write('WAVEfmt ', 8);
  for (const [at, value] of [
    [16, 16],
    [24, 48_000],
    [28, 288_000],
  ])
    head.writeUInt32LE(value, at);
  for (const [at, value] of [
    [20, 1],
    [22, 2],
    [32, 6],
    [34, 24],
  ])
    head.writeUInt16LE(value, at);
  head.write('data', 36);
  head.writeUInt32LE(bytes - 44, 40);
  yield head;
  for (let sent = 44; sent < bytes; sent += 65_536) yield Buffer.alloc(Math.min(65_536, bytes - sent), sent & 255);
}

describe('the server', () => {
  test('shows its first page in under a second from cold, and stops when told', async () => {
    const timesMs: number[] = [];
    const computedMs: number[] = [];
    for (let n = 0; n < 3; n++) {
      const begun = performance.now();
      const { url, pid, stop } = await started();
      const page = await fetch(`${url}/`);
      expect(page.status).toBe(200);
      await page.text();
      timesMs.push(performance.now() - begun);
      computedMs.push(existsSync('/proc') ? spentMs(pid) : timesMs[n]);
      expect(await stop()).toBe(0);
    }
    expect(Math.min(...computedMs)).toBeLessThan(1000);
    expect(Math.min(...timesMs)).toBeLessThan(4000);
  });

  test('listens on this computer alone', async () => {
    const { url } = await started();
    const { port } = new URL(url);
    const { networkInterfaces } = await import('node:os');
    const others = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .filter(({ internal }) => !internal);
    for (const { address, family } of others) {
      const host = family === 'IPv6' ? `[${address}]` : address;
      if (address.startsWith('fe80')) continue;
      await expect(fetch(`http://${host}:${port}/api/jobs`)).rejects.toThrow();
    }
    expect((await fetch(`${url}/api/jobs`)).status).toBe(200);
  });

  test('takes 200 MB in without growing by more than 50 MB', { timeout: 120_000 }, async () => {
    const { url, pid } = await started();
    await send(`${url}/api/jobs`, 'GET');
    const beforeMb = memoryMb(pid);
    let mostMb = beforeMb;
    const watch = setInterval(() => {
      mostMb = Math.max(mostMb, memoryMb(pid));
    }, 20);
    const answer = await fetch(`${url}/api/recordings`, {
      method: 'PUT',
      body: largeWav(200e6),
      headers: { 'content-type': 'audio/wav' },
      duplex: 'half',
    } as unknown as RequestInit);
    clearInterval(watch);
    expect(await answer.json()).toMatchObject({ bytes: 200e6, wav: { channels: 2, bits: 24 } });
    expect(mostMb - beforeMb).toBeLessThan(50);
  });

  test('goes on when callers go away in the middle, and keeps nothing of what was half sent', async () => {
    const { url, pid } = await started();
    const { port } = new URL(url);
    await send(`${url}/api/recordings`, 'PUT', wav, 'audio/wav');
    const head = `Host: localhost:${port}\r\nContent-Length: 30000000\r\nContent-Type:`;
    const starts = [
      `PUT /api/recordings HTTP/1.1\r\n${head} audio/wav\r\n\r\nRIFF half`,
      `POST /api/import HTTP/1.1\r\n${head} application/zip\r\n\r\nPK half`,
      `POST /api/jobs HTTP/1.1\r\n${head} application/json\r\n\r\n{"half`,
      `GET /api/events HTTP/1.1\r\nHost: localhost:${port}\r\n\r\n`,
    ];
    for (const start of starts) {
      for (const rude of [true, false]) {
        await new Promise<void>((resolve) => {
          const socket = connect(Number(port), '127.0.0.1', () => {
            socket.write(start);
            setTimeout(() => {
              if (rude) socket.resetAndDestroy();
              else socket.end();
              resolve();
            }, 30);
          });
          socket.on('error', () => {});
        });
      }
    }
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect((await send(`${url}/api/jobs`, 'GET')).jobs).toEqual([]);
    expect(readdirSync(join(bench.path('data'), 'incoming'))).toEqual([]);
    expect(pid).toBe(server?.pid);
  });

  test('reads a take in a worker, while it answers others, and can be told to stop', async () => {
    const { url } = await started();
    const recording = (await send(`${url}/api/recordings`, 'PUT', wav, 'audio/wav')).sha256;
    const kept = (await send(`${url}/api/tracks`, 'PUT', track)).sha256;
    const begun = await send(`${url}/api/readings`, 'POST', { recording, track: kept });
    expect(begun.state).toBe('waiting');
    const events = (await fetch(`${url}/api/readings/${begun.id}/events`)).text();
    let slowestMs = 0;
    let state = begun;
    while (state.state === 'waiting' || state.state === 'running') {
      const asked = performance.now();
      state = await send(`${url}/api/readings/${begun.id}`, 'GET');
      slowestMs = Math.max(slowestMs, performance.now() - asked);
    }
    expect(state.reading.quality.usable).toBe(true);
    expect(slowestMs).toBeLessThan(1000);
    const doings = [...(await events).matchAll(/"doing":"([^"]+)"/g)].map(([, doing]) => doing);
    expect(new Set(doings).size).toBeGreaterThan(2);

    // Many at once, so that most wait; then all are told to stop.
    const others = await Promise.all(
      [2, 3, 4, 6, 8, 24].map((n) =>
        send(`${url}/api/readings`, 'POST', { recording, track: kept, options: { smoothOctaves: 1 / n } }),
      ),
    );
    const stopped = await Promise.all(others.map(({ id }) => send(`${url}/api/readings/${id}`, 'DELETE')));
    expect(stopped.map((other) => other.state)).toEqual(others.map(() => 'cancelled'));
    const again = await send(`${url}/api/readings`, 'POST', {
      recording,
      track: kept,
      options: { smoothOctaves: 1 / 24 },
    });
    await (await fetch(`${url}/api/readings/${again.id}/events`)).text();
    expect((await send(`${url}/api/readings/${again.id}`, 'GET')).state).toBe('done');
  });

  test('and the command line work on the same folder, and browsers hear of it', async () => {
    const { url } = await started();
    const stream = (await fetch(`${url}/api/events`)).body as ReadableStream<Uint8Array>;
    const reader = stream.getReader();
    const decoder = new TextDecoder();
    // News may come in any pieces, and between them the signs of life that keep the line open.
    const hear = async (expected: string) => {
      let heard = '';
      while (!heard.includes(expected)) heard += decoder.decode((await reader.read()).value, { stream: true });
    };
    await hear('event: ready');
    const made = bench.kickpanel('job', 'new', 'From the command line', '--data', bench.path('data'), '--json');
    expect(made.status).toBe(0);
    const { id } = JSON.parse(made.stdout).job;
    await hear(`"job":"${id}"`);
    const note = { id: 'n1', who: 'Ann', wish: { command: 'addNote', text: 'from a browser' } };
    await send(`${url}/api/jobs/${id}/entries`, 'POST', { requests: [note] });
    await reader.cancel();
    const shown = JSON.parse(bench.kickpanel('job', 'show', id, '--data', bench.path('data'), '--json').stdout);
    expect(shown.job.notes).toMatchObject([{ text: 'from a browser' }]);
    expect(bench.kickpanel('job', 'verify', id, '--data', bench.path('data')).status).toBe(0);
  });

  test('opens a job of 5 000 entries and 200 takes in under 300 ms', { timeout: 120_000 }, async () => {
    const { url, stop } = await started();
    const recording = (await send(`${url}/api/recordings`, 'PUT', wav, 'audio/wav')).sha256;
    const kept = (await send(`${url}/api/tracks`, 'PUT', track)).sha256;
    await send(`${url}/api/jobs`, 'POST', {
      job: 'big',
      requests: [{ id: 'open', who: 'Ann', wish: { command: 'createJob', name: 'A long one' } }],
    });
    const entries = Array.from({ length: 4999 }, (_, n) => {
      const take = {
        take: `T${n}`,
        name: `take ${n}`,
        recording,
        bytes: wav.length,
        track: kept,
        covers: [],
        level: { reference: 'full-scale' },
      };
      const [kind, data] =
        n % 25 === 0 ? ['take-recorded', take] : ['note-added', { text: `note ${n}, ${'x'.repeat(150)}` }];
      const when = new Date(Date.UTC(2026, 2, 4, 8, 0, n)).toISOString();
      return { id: `e${n}`, job: 'big', device: 'tablet', sequence: n + 1, when, who: 'Ann', kind, version: 1, data };
    });
    const made = await send(`${url}/api/jobs/big/entries`, 'POST', { entries });
    expect(made.view.head.entries).toBe(5000);
    await stop();
    const timesMs: number[] = [];
    for (let n = 0; n < 3; n++) {
      // Nothing is in memory: a fresh process opens it.
      const fresh = await started();
      await send(`${fresh.url}/api/about`, 'GET');
      const begun = spentMs(fresh.pid);
      const view = await send(`${fresh.url}/api/jobs/big`, 'GET');
      timesMs.push(spentMs(fresh.pid) - begun);
      expect(view.job.takes).toHaveLength(200);
      await fresh.stop();
    }
    expect(Math.min(...timesMs)).toBeLessThan(300);
  });

  test('loses nothing that it acknowledged when it is killed in the middle', { timeout: 240_000 }, async () => {
    const complaints: string[] = [];
    const tally = await crashRounds(bench.path('crashes'), {
      kills: 15,
      seed: 15,
      complain: (what) => complaints.push(what),
    });
    expect(complaints).toEqual([]);
    expect(tally.entries).toBeGreaterThan(15);
    expect(tally.recordings).toBeGreaterThan(3);
  });
});

describe('serve', () => {
  let squatter: Server;
  let port: number;
  beforeAll(async () => {
    squatter = createServer();
    await new Promise<void>((resolve) => squatter.listen(0, '127.0.0.1', resolve));
    ({ port } = squatter.address() as { port: number });
  });
  afterAll(() => squatter.close());

  test('says when the port is taken, or the call makes no sense', () => {
    const taken = bench.kickpanel('serve', '--port', String(port), '--data', bench.path('data'), '--json');
    expect(taken.status).toBe(2);
    expect(JSON.parse(taken.stdout)).toMatchObject({ error: { code: 'port-taken', where: '--port' } });
    for (const words of [['--port', '70000'], ['--port', 'x'], ['jobs']]) {
      expect(bench.kickpanel('serve', ...words, '--json').status).toBe(2);
    }
    const file = bench.write('file', 'x');
    expect(bench.kickpanel('serve', '--port', '0', '--data', file, '--json').status).toBe(2);
  });
});
