import { expect, test } from 'vitest';
import { Bench, openJob, takeOf } from '../../../test/job/given.ts';
import type { Command } from '../commands/commands.ts';
import { summaryOf } from './job-summary.ts';
import { waitsOf } from './waits.ts';

const codes = (bench: Bench) => waitsOf(bench.state).map(({ code }) => code);
const cover = (state: 'off' | 'fastened'): Command => ({
  command: 'changeCovers',
  covers: [
    { cover: 'A', state },
    { cover: 'B', state },
  ],
});

test('a job waits for the nearest thing first, until nothing is missing', () => {
  const bench = new Bench().does(openJob);
  expect(codes(bench)).toEqual(['vehicle-missing', 'track-missing', 'take-missing']);
  bench.does({ command: 'describeVehicle', bodyType: 'van' }, cover('off'), takeOf('door'));
  expect(waitsOf(bench.state)).toMatchObject([
    { code: 'covers-open', message: 'A, B are not fastened: close them before the last take.', about: 'A B' },
    { code: 'take-as-driven-missing' },
  ]);
  bench.does(cover('fastened'));
  expect(codes(bench)).toEqual(['take-as-driven-missing']);
  bench.does(takeOf('door again'));
  expect(codes(bench)).toEqual([]);
});

test('a take set aside is no take', () => {
  const bench = new Bench().does(openJob, { command: 'describeVehicle', bodyType: 'van' }, takeOf('door'));
  expect(codes(bench)).toEqual([]);
  bench.does({ command: 'noteTake', take: 'e3', kept: false });
  expect(codes(bench)).toContain('take-missing');
});

test('the summary has the first of them, and the shop waits for nothing', () => {
  const bench = new Bench().does(openJob);
  expect(summaryOf(bench.state)).toEqual({
    id: 'j1',
    name: 'Four door speakers',
    purpose: 'car',
    createdWhen: bench.entries[0].when,
    changedWhen: bench.entries[0].when,
    entries: 1,
    takes: 0,
    waits: 'Start with the vehicle in front of you: choose its body.',
  });
  expect(codes(new Bench().does({ command: 'createJob', name: 'The shop', purpose: 'shop' }))).toEqual([]);
});
