import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type JobDesk, jobDesk } from '../../test/job/job-command.ts';
import { folderWorkshop } from '../../test/job/workshops.ts';
import { type AppBench, appBench } from '../../test/server/app-bench.ts';

let desk: JobDesk;
let bench: AppBench;
let out: string;
beforeEach(async () => {
  desk = jobDesk();
  out = mkdtempSync(join(tmpdir(), 'kickpanel-papers-'));
});
afterEach(async () => {
  await bench?.clear();
  desk.clear();
  rmSync(out, { recursive: true, force: true });
});

/** A job of the command line, opened by the server over the same folder. */
async function plannedJob(): Promise<string> {
  const made = await desk.answer('new', 'Grey estate', '--number', '0412');
  await desk.job('plan', 'template', '0412', 'seven-channel');
  await desk.job('plan', 'set', '0412', 'reading', 'M1', '{"of":"L11","quantity":"resistance","value":3.4}');
  bench = await appBench({ bench: await folderWorkshop(desk.path('data')) });
  return made.job.id as string;
}

test('every paper has the same bytes as the command line writes, as PDF and as SVG', async () => {
  const job = await plannedJob();
  const papers: [paper: string, words: string[], query: string][] = [
    ['labels', [], ''],
    ['labels', ['--stock', 'roll'], '&stock=roll'],
    ['labels', ['--address', 'https://shop.example'], '&address=https%3A%2F%2Fshop.example%2F'],
    ['leads', [], ''],
    ['fuses', [], ''],
  ];
  for (const format of ['pdf', 'svg']) {
    for (const [paper, words, query] of papers) {
      const file = join(out, `${paper}.${format}`);
      await desk.answer(paper, '0412', ...words, '--out', file);
      const said = await bench.get(`/api/jobs/${job}/papers/${paper}?format=${format}${query}`);
      expect(said.status).toBe(200);
      expect(said.headers.get('content-type')).toBe(format === 'pdf' ? 'application/pdf' : 'image/svg+xml');
      expect(Buffer.from(said.body).equals(readFileSync(file)), `${paper} ${words.join(' ')} as ${format}`).toBe(true);
    }
  }
});

test('a plan without leads, a sheet too many and a job that is not there are said', async () => {
  const job = await plannedJob();
  const sheets = await bench.get(`/api/jobs/${job}/papers/labels?format=svg`);
  expect(sheets.headers.get('kickpanel-sheets')).toBe('1');
  expect(await bench.get(`/api/jobs/${job}/papers/labels?format=svg&sheet=2`)).toMatchObject({
    status: 404,
    body: { error: { code: 'sheet-unknown', mend: 'Ask for 1 to 1.' } },
  });
  expect((await bench.get('/api/jobs/none/papers/leads')).body.error.code).toBe('job-unknown');
  expect((await bench.get(`/api/jobs/${job}/papers/bill`)).status).toBe(400);
  expect((await bench.get(`/api/jobs/${job}/papers/labels?address=javascript:1`)).status).toBe(400);
  const opening = { command: 'createJob', name: 'Bare', purpose: 'car' };
  await bench.send('POST', '/api/jobs', { job: 'bare', requests: [{ id: 'o1', who: 'Ann', wish: opening }] });
  for (const paper of ['labels', 'leads', 'fuses']) {
    expect(await bench.get(`/api/jobs/bare/papers/${paper}`)).toMatchObject({
      status: 409,
      body: { error: { code: 'nothing-to-print' } },
    });
  }
});
