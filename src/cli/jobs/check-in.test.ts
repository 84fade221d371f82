import { writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { type JobDesk, jobDesk } from '../../../test/job/job-command.ts';
import { jpegPhoto } from '../../../test/job/photos.ts';
import type { CommandOutcome } from '../command.ts';
import { checkInJsonSchema } from '../schemas/check-in.ts';

let desk: JobDesk;
beforeEach(async () => {
  desk = jobDesk();
  await desk.answer('new', 'Seven channels', '--number', '7');
});
afterEach(() => desk.clear());

function photo(name: string): string {
  writeFileSync(desk.path(name), jpegPhoto(name));
  return desk.path(name);
}
const textOf = (outcome: CommandOutcome) =>
  outcome.status === 2 ? '' : outcome.text({ width: 80, unicode: false, colour: false });
const reportOf = (answer: { checks: { check: string }[] }, id: string) =>
  answer.checks.find(({ check }) => check === id);
const tried = (id: string, at: string, ...words: string[]) => desk.job('check-in', '7', id, '--at', at, ...words);

describe('job check-in', () => {
  test('lists what is to be tried, with what to mind, and holds its schema', async () => {
    const outcome = await desk.job('check-in', '7');
    expect(outcome.status).toBe(0);
    if (outcome.status === 2) throw new Error('refused');
    z.fromJSONSchema(checkInJsonSchema() as Parameters<typeof z.fromJSONSchema>[0]).parse(
      JSON.parse(JSON.stringify(outcome.answer)),
    );
    const text = textOf(outcome);
    expect(text).toContain('Caution:');
    expect(text).toContain('Nothing was looked over yet.');
    expect(text.split('\n').filter((line) => line.length > 80)).toEqual([]);
  });

  test('records a reading with a comma, a photo from a file, a mark, a sound and a word', async () => {
    await tried('resting-volts', 'arrive', '--measured', '12,6', '--unit', 'V');
    await tried('nose', 'arrive', '--photo', photo('nose.jpg'));
    await tried('mark', 'arrive', '--photo', photo('sill.jpg'), '--words', 'Scratch, left sill');
    await tried('mark', 'arrive', '--result', 'fault', '--words', 'Dent, right side');
    const last = await tried('door-chime', 'arrive', '--result', 'not-fitted');
    if (last.status === 2) throw new Error(last.issues[0].message);
    const answer = last.answer as Parameters<typeof reportOf>[0];
    expect(reportOf(answer, 'resting-volts')).toMatchObject({ arrive: { verdict: 'fine', says: '12.6 V' } });
    expect(reportOf(answer, 'nose')).toMatchObject({ arrive: { verdict: 'kept', says: 'photo nose' } });
    expect(reportOf(answer, 'mark-1')).toMatchObject({ arrive: { says: 'photo sill: Scratch, left sill' } });
    expect(reportOf(answer, 'mark-2')).toMatchObject({ arrive: { verdict: 'fault' } });
    expect(reportOf(answer, 'door-chime')).toMatchObject({ arrive: { verdict: 'not-fitted' } });
    expect(await desk.answer('verify', '7')).toMatchObject({ whole: true, photos: 2 });
  });

  test('keeps the complaint so that it can be erased', async () => {
    await tried('complaint', 'arrive', '--words', 'Turn it up and it buzzes.');
    expect(await desk.answer('check-in', '7')).toMatchObject({ complaint: 'Turn it up and it buzzes.' });
    expect(textOf(await desk.job('check-in', '7'))).toContain('"Turn it up and it buzzes."');
    const out = desk.path('job.zip');
    await desk.answer('export', '7', '--out', out, '--without-personal');
    expect(await desk.answer('verify', out)).toMatchObject({ whole: true, personalRecords: { leftOut: 1 } });
    await desk.answer('append', '7', desk.file('erase.json', { command: 'erasePersonal' }));
    expect(await desk.answer('check-in', '7')).toMatchObject({ complaint: null });
    expect(await desk.answer('verify', '7')).toMatchObject({ whole: true, personalRecords: { erased: 1 } });
  });

  test('at Refit says what became of it, with status 1 while something is worse than it came', async () => {
    await tried('radio', 'arrive', '--result', 'ok');
    const worse = await tried('radio', 'refit', '--result', 'fault', '--words', 'no weak stations');
    expect(worse.status).toBe(1);
    expect(textOf(worse)).toContain('It was fine when it came');
    expect((await desk.job('check-in', '7')).status).toBe(0);
    expect((await desk.job('check-in', '7', '--at', 'refit')).status).toBe(1);
    expect((await tried('radio', 'refit', '--result', 'ok')).status).toBe(0);
  });

  test('refuses with what would do', async () => {
    const refusal = (...words: string[]) => desk.refusal('check-in', '7', ...words);
    expect(await refusal('radio', '--result', 'ok')).toBe('option-missing');
    expect(await refusal('radio', '--at', 'arrive')).toBe('option-missing');
    expect(await refusal('radio', '--at', 'leave', '--result', 'ok')).toBe('bad-option-value');
    expect(await refusal('radio', '--at', 'arrive', '--result', 'good')).toBe('bad-option-value');
    expect(await refusal('radoi', '--at', 'arrive', '--result', 'ok')).toBe('check-unknown');
    expect(await refusal('radio', '--at', 'arrive', '--result', 'ok', '--take', 'x')).toBe('options-conflict');
    expect(await refusal('resting-volts', '--at', 'arrive', '--measured', '12.6')).toBe('option-missing');
    expect(await refusal('resting-volts', '--at', 'arrive', '--measured', '12.6', '--unit', 'ohm')).toBe(
      'bad-option-value',
    );
    expect(await refusal('nose', '--at', 'arrive', '--photo', desk.file('x.jpg', '<html>'))).toBe('not-a-photo');
  });
});
