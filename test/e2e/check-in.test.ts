// A car looked over by the real command: a photo as evidence, what became of it at Refit, and the proof of all of it elsewhere.
import { afterAll, beforeAll, expect, test } from 'vitest';
import { jpegPhoto } from '../job/photos.ts';
import { type Workbench, workbench } from './kickpanel.ts';

let bench: Workbench;
beforeAll(() => {
  bench = workbench();
});
afterAll(() => bench.clear());

// biome-ignore lint/suspicious/noExplicitAny: answers of every form are looked into
function job(...words: string[]): { status: number | null; answer: any } {
  const { status, stdout, stderr } = bench.kickpanel('job', ...words, '--who', 'Ann', '--json');
  expect(stderr).toBe('');
  return { status, answer: JSON.parse(stdout) };
}
const here = () => ['--data', bench.path('data')];

test('a car comes, is worked on and goes back; its photos and words go with it or are left out', () => {
  bench.write('nose.jpg', jpegPhoto('nose', { widthPx: 4000, heightPx: 3000 }));
  bench.write('run.jpg', jpegPhoto('run'));
  bench.write('page.jpg', '<svg onload="alert(1)"/>');
  expect(job('new', 'Seven channels', '--number', '7', ...here()).status).toBe(0);
  expect(job('plan', 'template', '7', 'seven-channel', ...here()).status).toBe(0);
  const check = (...words: string[]) => job('check-in', '7', ...words, ...here());
  expect(check('complaint', '--at', 'arrive', '--words', 'It buzzes.').answer.complaint).toBe('It buzzes.');
  expect(check('nose', '--at', 'arrive', '--photo', 'nose.jpg').status).toBe(0);
  expect(check('resting-volts', '--at', 'arrive', '--measured', '12,6', '--unit', 'V').status).toBe(0);
  expect(check('nose', '--at', 'arrive', '--photo', 'page.jpg')).toMatchObject({ status: 2 });
  expect(check('resting-volts', '--at', 'refit', '--measured', '12.1', '--unit', 'V').status).toBe(1);

  const { holdPoints } = job('hold-points', '7', ...here()).answer;
  const run = holdPoints.find(({ kind }: { kind: string }) => kind === 'run-laid').id;
  expect(job('evidence', '7', run, '--photo', 'run.jpg', ...here())).toMatchObject({ status: 0 });

  expect(job('export', '7', '--out', 'job.zip', '--without-personal', ...here()).status).toBe(0);
  expect(job('verify', 'job.zip', ...here()).answer).toMatchObject({ whole: true, photos: 2 });
  const elsewhere = ['--data', bench.path('elsewhere')];
  expect(job('import', 'job.zip', ...elsewhere).answer).toMatchObject({ photos: 2 });
  const there = job('check-in', '7', ...elsewhere).answer;
  expect(there.complaint).toBeNull();
  expect(there.checks.find(({ check: id }: { check: string }) => id === 'resting-volts').difference).toMatchObject({
    change: 'worse',
  });
  expect(job('verify', '7', ...elsewhere).answer).toMatchObject({ whole: true, photos: 2 });
}, 180_000);
