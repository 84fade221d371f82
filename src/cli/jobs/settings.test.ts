import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { z } from 'zod';
import { type JobDesk, jobDesk } from '../../../test/job/job-command.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import { settingsJsonSchema } from '../schemas/hold-points.ts';

let desk: JobDesk;
beforeEach(async () => {
  desk = jobDesk();
  await desk.answer('new', 'Seven channels', '--number', '7');
  await desk.answer('plan', 'template', '7', 'seven-channel');
});
afterEach(() => desk.clear());

const point = async () => {
  const { holdPoints } = await desk.answer('hold-points', '7');
  return holdPoints.find(({ id }: { id: string }) => id === 'processor DSP settings');
};

/** The table as it was written, with what is planned, or else to start with, in the last column. */
async function filledIn(change: (text: string) => string = (text) => text): Promise<string> {
  await desk.answer('settings', '7', '--csv', desk.path('sheet.csv'));
  const [header, ...lines] = readFileSync(desk.path('sheet.csv'), 'utf8').trim().split('\n');
  const filled = lines.map((line) => {
    const cells = line.split(',');
    return [...cells.slice(0, 5), cells[4]].join(',');
  });
  return desk.file('filled.csv', change([header, ...filled].join('\n')));
}

test('the sheet keeps to the schema that is published for it', async () => {
  const sheet = await desk.answer('settings', '7');
  const schema = settingsJsonSchema() as Parameters<typeof z.fromJSONSchema>[0];
  z.fromJSONSchema(schema).parse(JSON.parse(JSON.stringify(sheet)));
  expect(sheet.processors[0].outputs).toHaveLength(7);
  expect(sheet.readBack).toBeNull();
});

test('read back whole and right by somebody, it closes the hold point of the processor', async () => {
  expect((await point()).state).toBe('open');
  const read = await desk.answer('settings', '7', '--read-back', await filledIn(), '--by', 'Ann');
  expect(read.readBack).toMatchObject({ verdict: 'same', notRead: [] });
  expect(await point()).toMatchObject({ state: 'closed', reason: expect.stringContaining('Ann') });
});

test('a processor of which nothing was read is not closed beside another', async () => {
  await desk.answer('plan', 'set', '7', 'processor', 'SPARE', '{"id":"SPARE"}');
  await desk.answer('settings', '7', '--read-back', await filledIn(), '--by', 'Ann');
  const { holdPoints } = await desk.answer('hold-points', '7');
  const states = holdPoints.filter(({ id }: { id: string }) => id.endsWith(' settings'));
  expect(states.map(({ id, state }: { id: string; state: string }) => [id, state])).toEqual([
    ['processor DSP settings', 'closed'],
    ['processor SPARE settings', 'open'],
  ]);
});

test('one setting that differs is told, with status 1, and closes nothing', async () => {
  const file = await filledIn((text) => text.replace(/(DSP\/3,low-pass frequency.*,)[^,\n]+/, '$12700'));
  const outcome = await desk.job('settings', '7', '--read-back', file, '--by', 'Ann');
  expect(outcome).toMatchObject({ status: 1, answer: { readBack: { verdict: 'differs' } } });
  expect((await point()).state).toBe('open');
});

test('is refused where it would prove nothing, or nothing was read', async () => {
  expect(await desk.refusal('settings', '7', '--by', 'Ann')).toBe('option-missing');
  expect(await desk.refusal('settings', '7', '--against', 'start')).toBe('option-missing');
  expect(await desk.refusal('settings', '7', '--read-back', desk.path('none.csv'))).toBe('file-not-found');
  const both = ['--read-back', await filledIn(), '--against', 'start', '--by', 'Ann'];
  expect(await desk.refusal('settings', '7', ...both)).toBe('options-conflict');
  expect((await point()).state).toBe('open');
});

test('of a plan in a file it tells the sheet alone', async () => {
  const file = desk.file('plan.json', { schema: 'kickpanel.plan/1', ...templatePlan('two-way-front') });
  expect(await desk.job('settings', '--plan', file)).toMatchObject({ status: 0, answer: { job: null } });
});
