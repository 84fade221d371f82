import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { type JobDesk, jobDesk } from '../../../test/job/job-command.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import type { CommandOutcome } from '../command.ts';
import { coverJsonSchema, evidenceJsonSchema, gainsJsonSchema, holdPointsJsonSchema } from '../schemas/hold-points.ts';

let desk: JobDesk;
beforeEach(async () => {
  desk = jobDesk();
  await desk.answer('new', 'Seven channels', '--number', '7', '--body', 'hatchback');
  await desk.answer('plan', 'template', '7', 'seven-channel');
});
afterEach(() => desk.clear());

const job: JobDesk['job'] = (...words) => desk.job(...words);
const answer: JobDesk['answer'] = (...words) => desk.answer(...words);
const refusal: JobDesk['refusal'] = (...words) => desk.refusal(...words);
const ids = (points: { id: string }[]) => points.map(({ id }) => id);
const textOf = (outcome: CommandOutcome) =>
  outcome.status === 2 ? '' : outcome.text({ width: 80, unicode: false, colour: false });
const wide = (text: string) => text.split('\n').filter((line) => line.length > 80);
/** Holds an answer against the JSON Schema that is published for it. */
const holds = (schema: object, value: unknown) =>
  z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]).parse(JSON.parse(JSON.stringify(value)));

describe('job hold-points', () => {
  test('lists what the plan opens, the covers, and the shortest list of tests', async () => {
    const all = await answer('hold-points', '7');
    holds(holdPointsJsonSchema(), all);
    expect(all.counts).toEqual({ open: all.holdPoints.length, closed: 0, reOpened: 0 });
    expect(ids(all.holdPoints)).toContain('lead L15 connected');
    const door = all.covers.find(({ cover }: { cover: string }) => cover === 'door-left');
    expect(door).toMatchObject({ letter: 'B', name: 'Left door card', state: 'unknown' });
    expect(door.open).toEqual(['lead L15 connected', 'load N5 coils', 'channel C5 reaches', 'driver D5 polarity']);
    expect(all.shortest.exact).toBe(true);
    expect(all.shortest.tests[0]).toMatchObject({ id: 'near-walk', opens: [] });
    expect(all.shortest.tests[0].clears).toHaveLength(21);
  });

  test('looks behind one cover, by its letter too, and at what is open alone', async () => {
    await job('evidence', '7', 'driver D5 polarity', '--seen', '--by', 'Ben');
    const behind = await answer('hold-points', '7', '--cover', 'B', '--open');
    expect(ids(behind.holdPoints)).toEqual(['lead L15 connected', 'load N5 coils', 'channel C5 reaches']);
    expect(behind.counts).toEqual({ open: 3, closed: 1, reOpened: 0 });
    expect((await answer('hold-points', '7', '--cover', 'door-left')).holdPoints).toHaveLength(4);
    // What a walk by ear proves, and a meter.
    expect(ids(behind.shortest.tests)).toEqual(['channel-walk', 'meter load N5 coils']);
    expect(await refusal('hold-points', '7', '--cover', 'door-lefd')).toBe('cover-unknown');
  });

  test('takes a plan in a file, and says it in 80 columns', async () => {
    const file = desk.file('plan.json', { schema: 'kickpanel.plan/1', ...templatePlan('two-way-front') });
    const outcome = await job('hold-points', '--plan', file);
    expect(outcome).toMatchObject({ status: 0, answer: { job: null } });
    expect(wide(textOf(outcome))).toEqual([]);
    expect(textOf(outcome)).toContain('Takes near each driver (clears 12)');
    expect(await refusal('hold-points', '7', '--plan', file)).toBe('options-conflict');
    const none = desk.file('none.json', { schema: 'kickpanel.plan/1' });
    expect(textOf(await job('hold-points', '--plan', none))).toBe('The plan opens no hold points yet.\n');
  });
});

describe('job evidence', () => {
  test('closes with a reading, and ends with status 1 where the reading is not as it should be', async () => {
    const wrong = await job('evidence', '7', 'load N5 coils', '--measured', '6.6', '--unit', 'ohm');
    expect(wrong).toMatchObject({ status: 1, answer: { holdPoints: [{ state: 'open' }] } });
    expect(textOf(wrong)).toContain('It reads 6.6 ohm; expected is 2.88 to 3.52 ohm.');
    const right = await job('evidence', '7', 'load N5 coils', '--measured', '3.4', '--unit', 'ohm');
    expect(right).toMatchObject({ status: 0, answer: { holdPoints: [{ state: 'closed' }] } });
    if (right.status !== 2) holds(evidenceJsonSchema(), right.answer);
  });

  test('takes one statement for many points, and opens them again with what changes', async () => {
    const points = ['lead L15 connected', 'channel C5 reaches', 'driver D5 polarity'];
    expect(await job('evidence', '7', ...points, '--seen', '--by', 'Ben')).toMatchObject({ status: 0 });
    await answer('plan', 'set', '7', 'lead', 'L15', '{"kind":"speaker","from":"B/1","to":"D6"}');
    const { holdPoints } = await answer('hold-points', '7');
    const lead = holdPoints.find(({ id }: { id: string }) => id === 'lead L15 connected');
    expect(lead).toMatchObject({ state: 're-opened' });
    expect(lead.reason).toMatch(/^lead L15 was changed on \d{4}-\d\d-\d\d \d\d:\d\d, after it was proven\.$/);
  });

  test('says what is missing or cannot be', async () => {
    expect(await refusal('evidence', '7', 'lead L15 conected', '--seen')).toBe('hold-point-unknown');
    expect(await refusal('evidence', '7', 'lead L15 connected')).toBe('option-missing');
    expect(await refusal('evidence', '7', 'lead L15 connected', '--seen', '--take', 'T1')).toBe('options-conflict');
    expect(await refusal('evidence', '7', 'lead L15 connected', '--take', 'T1')).toBe('take-unknown');
    expect(await refusal('evidence', '7', 'load N5 coils', '--measured', '3.4')).toBe('option-missing');
    expect(await refusal('evidence', '7', 'load N5 coils', '--measured', '3.4', '--unit', 'V')).toBe('unit-unfit');
    expect(await refusal('evidence', '7', 'load N5 coils', '--seen', '--by', 'Ben')).toBe('evidence-unfit');
    expect(await refusal('evidence', '7', 'load N5 coils', '--measured', 'x', '--unit', 'ohm')).toBe(
      'bad-option-value',
    );
    const two = ['load N5 coils', 'load N6 coils', '--measured', '3.4', '--unit', 'ohm'];
    expect(await refusal('evidence', '7', ...two)).toBe('one-reading-each');
  });

  test('finds the hold point that was meant', async () => {
    expect(await job('evidence', '7', 'lead L15 conected', '--seen')).toMatchObject({
      issues: [{ mend: expect.stringContaining('Did you mean "lead L15 connected"?') }],
    });
  });
});

describe('job cover', () => {
  test('refuses to fasten over what is unproven, with the list and the shortest tests, and writes nothing', async () => {
    await answer('cover', '7', 'B', 'off');
    const refused = await job('cover', '7', 'door-left', 'fastened');
    expect(refused).toMatchObject({ status: 1, answer: { set: false, cover: 'B', appended: [] } });
    if (refused.status === 2) throw new Error('must be an answer');
    holds(coverJsonSchema(), refused.answer);
    expect(textOf(refused)).toContain('Not fastened: door-left hides 4 unproven points.');
    expect(textOf(refused)).toContain('The fewest tests that clear them: 2 tests');
    expect(wide(textOf(refused))).toEqual([]);
    expect((await answer('show', '7')).job.covers).toMatchObject([{ cover: 'B', state: 'off' }]);
  });

  test('refuses where nobody had said how it was, unless it was found so', async () => {
    expect((await job('cover', '7', 'B', 'fastened')).status).toBe(1);
    expect(await job('cover', '7', 'B', 'fastened', '--found')).toMatchObject({ status: 0, answer: { set: true } });
  });

  test('fastens with a name and a reason, and both stand in the journal with what was open', async () => {
    await answer('cover', '7', 'B', 'off');
    expect(await refusal('cover', '7', 'B', 'fastened', '--by', 'Ben')).toBe('option-missing');
    const words = ['--by', 'Ben', '--why', 'The owner needs the car tonight.'];
    const fastened = await answer('cover', '7', 'B', 'fastened', ...words);
    expect(fastened.appended[0]).toMatchObject({
      kind: 'covers-changed',
      version: 2,
      data: {
        covers: [{ cover: 'B', state: 'fastened' }],
        passedOver: {
          name: 'Ben',
          why: 'The owner needs the car tonight.',
          open: [
            {
              cover: 'B',
              holdPoints: ['lead L15 connected', 'load N5 coils', 'channel C5 reaches', 'driver D5 polarity'],
            },
          ],
        },
      },
    });
    expect(textOf(await job('show', '7'))).toContain('B fastened over 4 unproven, by Ben');
    const { covers } = await answer('hold-points', '7', '--cover', 'B');
    expect(covers[0]).toMatchObject({ state: 'fastened', passedOver: { name: 'Ben' } });
    const check = await answer('plan', 'check', '7');
    const passed = check.findings.find(
      ({ id, place }: { id: string; place: string }) => id === 'P-01' && place === 'cover door-left',
    );
    expect(passed.accepted).toMatchObject({ who: 'Ben', why: 'The owner needs the car tonight.' });
  });

  test('fastens what is proven without a word', async () => {
    await answer('cover', '7', 'B', 'off');
    await answer(
      'evidence',
      '7',
      'lead L15 connected',
      'channel C5 reaches',
      'driver D5 polarity',
      '--seen',
      '--by',
      'Ben',
    );
    await answer('evidence', '7', 'load N5 coils', '--measured', '3.2', '--unit', 'ohm');
    expect(await job('cover', '7', 'B', 'fastened')).toMatchObject({ status: 0, answer: { set: true, open: [] } });
  });

  test('takes a cover that the plan does not have, and no other state', async () => {
    expect(await job('cover', '7', 'H', 'off')).toMatchObject({ status: 0 });
    expect(await refusal('cover', '7', 'H', 'open')).toBe('bad-option-value');
    expect(await refusal('cover', '7', 'door-lefd', 'off')).toBe('cover-unknown');
    expect(await refusal('cover', '7', 'H', 'off')).toBe('nothing-changes');
  });
});

describe('job gains', () => {
  test('is the sheet to fill in, and a reading within tolerance closes the gain', async () => {
    const sheet = await answer('gains', '7');
    holds(gainsJsonSchema(), sheet);
    const tweeter = sheet.channels[0];
    // 25 W in 4 ohm is 10 V; a tone 20 dB below is 1 V. A third of 1 kHz is below the tweeter's band.
    expect(tweeter).toMatchObject({
      terminal: 'A/1',
      channel: 'C1',
      target: { fullV: 10, limitedBy: 'driver' },
      tone: { fHz: 333, inPassband: false },
      reading: { targetV: 1 },
      verdict: 'not-measured',
    });
    expect(sheet.sources[0]).toMatchObject({ source: 'H', cleanV: 3.8, from: 'data-sheet' });
    expect((await job('evidence', '7', 'gain A/1 set', '--measured', '1.07', '--unit', 'V')).status).toBe(1);
    expect((await answer('gains', '7')).channels[0]).toMatchObject({
      verdict: 'too-high',
      measured: { offDb: expect.closeTo(0.588, 2) },
    });
    expect((await job('evidence', '7', 'gain A/1 set', '--measured', '1.04', '--unit', 'V')).status).toBe(0);
    expect((await answer('gains', '7')).channels[0]).toMatchObject({ verdict: 'within', state: 'closed' });
  });

  test('goes by another tone and another meter, for the sheet and for the reading alike', async () => {
    const sheet = await answer('gains', '7', '--tone', '-10', '--meter', '30000');
    const { tone, reading } = sheet.channels[0];
    expect(tone).toMatchObject({ toneDbfs: -10, inPassband: true });
    expect(reading.targetV).toBeGreaterThan(3);
    const given = ['--measured', String(reading.targetV), '--unit', 'V', '--tone', '-10', '--meter', '30000'];
    expect((await job('evidence', '7', 'gain A/1 set', ...given)).status).toBe(0);
    expect(await refusal('gains', '7', '--tone', '3')).toBe('bad-option-value');
  });

  test('takes the ceiling that was measured, and says what it cannot tell, in 80 columns', async () => {
    await answer('evidence', '7', 'source H ceiling', '--measured', '2.9', '--unit', 'V');
    const outcome = await job('gains', '7');
    const text = textOf(outcome);
    expect(text).toContain('is clean to 2.9 V, measured.');
    expect(text.replaceAll(/\s+/g, ' ')).toContain('how far it is from the nearest seat is not known');
    expect(wide(text)).toEqual([]);
    await answer('plan', 'set', '7', 'driver', 'D1', '{"kind":"tweeter","coils":1,"coilOhm":4,"place":"P1"}');
    expect((await answer('gains', '7')).channels[0]).toMatchObject({
      reading: null,
      verdict: 'cannot-tell',
      needs: ['the power that its drivers stand'],
    });
  });

  test('says so of a plan that has no amplifier', async () => {
    const none = desk.file('none.json', { schema: 'kickpanel.plan/1' });
    expect(textOf(await job('gains', '--plan', none))).toContain('no amplifier channel that drives a load yet');
  });
});
