import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type JobDesk, jobDesk } from '../../../test/job/job-command.ts';

let desk: JobDesk;
beforeEach(() => {
  desk = jobDesk();
});
afterEach(() => desk.clear());

const job: JobDesk['job'] = (...words) => desk.job(...words);
const answer: JobDesk['answer'] = (...words) => desk.answer(...words);
const refusal: JobDesk['refusal'] = (...words) => desk.refusal(...words);
const file: JobDesk['file'] = (name, content) => desk.file(name, content);

const unfused = { schema: 'kickpanel.plan/1', battery: [{ id: 'BAT' }], run: [{ id: 'R1', from: 'BAT', near: [] }] };

describe('job plan check', () => {
  test('holds a file against the rules without a job, with status 1 while a stop stands', async () => {
    const outcome = await job('plan', 'check', '--plan', file('plan.json', unfused));
    expect(outcome).toMatchObject({
      status: 1,
      answer: {
        stops: 1,
        findings: [{ id: 'E-02', code: 'fuse-missing-near-battery', severity: 'stop', place: 'run R1' }],
      },
    });
    const sound = { ...unfused, fuse: [{ id: 'F1', run: 'R1', atM: 0.2, ratedA: 60 }] };
    expect((await job('plan', 'check', '--plan', file('sound.json', sound))).status).toBe(0);
  });

  test('refuses a file that is no plan, naming the field', async () => {
    const outcome = await job(
      'plan',
      'check',
      '--plan',
      file('bad.json', { ...unfused, run: [{ id: 'R1', lengthM: -1 }] }),
    );
    expect(outcome).toMatchObject({ status: 2, issues: [{ message: 'run[0].lengthM must be at least 0, got -1.' }] });
    expect(await refusal('plan', 'check')).toBe('job-unknown');
  });
});

describe('job plan', () => {
  beforeEach(async () => {
    await answer('new', 'Four doors', '--number', '7');
  });

  test('starts from a template, is shown, changed, accepted in part, and taken out of', async () => {
    const begun = await answer('plan', 'template', '7', 'seven-channel');
    expect(begun.plan.driver).toHaveLength(7);
    expect(await refusal('plan', 'template', '7', 'two-way-front')).toBe('plan-begun');
    await answer('plan', 'set', '7', 'run', 'R1', '{"from":"BAT","to":"BLOCK","material":"aluminium"}');
    const { plan } = await answer('plan', 'show', '7');
    expect(plan.run.find(({ id }: { id: string }) => id === 'R1')).toEqual({
      id: 'R1',
      from: 'BAT',
      to: 'BLOCK',
      material: 'aluminium',
    });
    const accepted = await answer('plan', 'accept', '7', 'E-16', 'run R1', 'It was in the car already.');
    const found = accepted.findings.find(({ id }: { id: string }) => id === 'E-16');
    expect(found.accepted.why).toBe('It was in the car already.');
    await answer('plan', 'remove', '7', 'fuse', 'F1');
    expect((await job('plan', 'check', '7')).status).toBe(1);
  });

  test('takes a whole plan from a file, and says what it cannot take', async () => {
    const path = file('plan.json', unfused);
    expect((await answer('plan', 'set', '7', '--plan', path)).plan).toEqual(unfused);
    expect(await refusal('plan', 'set', '7', '--plan', path)).toBe('nothing-changes');
    expect(await refusal('plan', 'set', '7', 'run', 'R1', '{"lengthM":1e308}')).toBe('part-invalid');
    expect(await refusal('plan', 'set', '7', 'run', 'R1', 'x')).toBe('not-json');
    expect(await refusal('plan', 'set', '7', 'wheel', 'R1', '{}')).toBe('wish-invalid');
    expect(await refusal('plan', 'set', '7')).toBe('argument-missing');
    expect(await refusal('plan', 'chekc', '7')).toBe('unknown-part');
    expect(await refusal('plan', 'show', '7', '8')).toBe('too-many-arguments');
  });

  test('lists templates and parts, and reads driver sheets from a table', async () => {
    expect((await answer('plan', 'template')).templates.length).toBeGreaterThan(5);
    expect(Object.keys((await answer('plan', 'parts')).drivers)).toContain('Quern S10');
    const table = file('sheets.csv', 'id;fs (Hz);re (ohm)\nD1;58;3,2\n');
    expect(await answer('plan', 'parts', table)).toEqual({ drivers: [{ id: 'D1', fsHz: 58, reOhm: 3.2 }] });
    expect(await refusal('plan', 'parts', file('bad.csv', 'id;fs\n'))).toBe('table-invalid');
  });

  test('says it to a person in 80 columns', async () => {
    const outcome = await job('plan', 'check', '--plan', file('plan.json', unfused));
    const text = outcome.status === 2 ? '' : outcome.text({ width: 80, unicode: false, colour: false });
    expect(text).toContain('1 to stop for, 0 to fix, 0 to note.');
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});
