import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type JobDesk, jobDesk } from '../../../test/job/job-command.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import type { CommandOutcome } from '../command.ts';

let desk: JobDesk;
beforeEach(() => {
  desk = jobDesk();
});
afterEach(() => desk.clear());

const job: JobDesk['job'] = (...words) => desk.job(...words);
const file: JobDesk['file'] = (name, content) => desk.file(name, content);
const planFile = () => file('plan.json', { schema: 'kickpanel.plan/1', ...templatePlan('seven-channel') });
const textOf = (outcome: CommandOutcome) =>
  outcome.status === 2 ? '' : outcome.text({ width: 80, unicode: false, colour: false });

test('lists the leads of a plan in a file without a job, in 80 columns and as a table', async () => {
  const csv = desk.path('leads.csv');
  const outcome = await job('leads', '--plan', planFile(), '--csv', csv);
  expect(outcome).toMatchObject({ status: 0, answer: { schema: 'kickpanel.leads/1', job: null, written: [csv] } });
  const text = textOf(outcome);
  expect(text).toContain('L11  speaker');
  expect(text).toContain('to   Ottery T25, Pillar, left (D1)');
  expect(text.split('\n').filter((line) => line.length > 80)).toEqual([]);
  const lines = readFileSync(csv, 'utf8').trimEnd().split('\n');
  expect(lines).toHaveLength(8);
  expect(lines[1].startsWith('L11,,speaker,A/1,"Haldane Q4, channel 1 (A/1)",D1,')).toBe(true);
});

test('lists the leads of a job with what was read, and says when a reading is of a plan that has changed', async () => {
  await job('new', 'Four doors', '--number', '7');
  await job('plan', 'template', '7', 'seven-channel');
  await job('plan', 'set', '7', 'reading', 'M1', '{"of":"L11","quantity":"resistance","value":3.4}');
  expect(textOf(await job('leads', '7'))).toContain('Expect 3.06 to 3.74 ohm. Reads 3.4 ohm. As planned.');
  await job('evidence', '7', 'lead L11 connected', '--seen', '--by', 'Ben');
  expect(textOf(await job('leads', '7')).replaceAll(/\s+/g, ' ')).toContain('Proven: Seen and found right by Ben.');
  await job('plan', 'set', '7', 'driver', 'D1', '{"reOhm":1.7,"coilOhm":2}');
  expect(textOf(await job('leads', '7'))).toContain('It was read before the plan changed');
});

test('a plan in a file may stand for that of a job', async () => {
  await job('new', 'Four doors', '--number', '7');
  expect(textOf(await job('leads', '7'))).toBe('The plan has no leads yet.\n');
  expect(textOf(await job('leads', '7', '--plan', planFile()))).toContain('L17');
});

test('says what is missing', async () => {
  expect(await job('leads')).toMatchObject({ status: 2, issues: [{ code: 'argument-missing' }] });
  expect(await job('leads', '9')).toMatchObject({ status: 2, issues: [{ code: 'job-unknown' }] });
  expect(await job('leads', '--plan', 'no.json')).toMatchObject({ status: 2, issues: [{ code: 'file-not-found' }] });
});

test('leads and fuses are printed for the clipboard', async () => {
  const [svg, pdf] = [desk.path('leads.svg'), desk.path('fuses.pdf')];
  expect(await job('leads', '--plan', planFile(), '--out', svg)).toMatchObject({ answer: { written: [svg] } });
  expect(readFileSync(svg, 'utf8')).toContain('width="210mm" height="297mm"');
  expect(await job('fuses', '--plan', planFile(), '--out', pdf)).toMatchObject({ answer: { written: [pdf] } });
  expect(readFileSync(pdf).subarray(0, 5).toString()).toBe('%PDF-');
  expect(await job('fuses', '--plan', planFile(), '--out', 'fuses.doc')).toMatchObject({ status: 2 });
});

test('the fuse chart of a job says what is not known, in 80 columns', async () => {
  await job('new', 'Four doors', '--number', '7');
  expect(textOf(await job('fuses', '7'))).toBe('The plan has no runs yet.\n');
  await job('plan', 'template', '7', 'seven-channel');
  const outcome = await job('fuses', '7');
  expect(outcome).toMatchObject({ status: 0, answer: { schema: 'kickpanel.fuses/1' } });
  expect(textOf(outcome)).toContain('Not known: its rating, the cable behind it.');
  expect(
    textOf(outcome)
      .split('\n')
      .filter((line) => line.length > 80),
  ).toEqual([]);
});
