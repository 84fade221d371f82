import { beforeEach, describe, expect, test } from 'vitest';
import { fileNamed, takeOf } from '../../test/job/given.ts';
import { does, fullJob, keptTake, memoryWorkshop } from '../../test/job/workshops.ts';
import type { Command } from '../job/commands/commands.ts';
import type { Entry } from '../job/entries.ts';
import { jobView } from './job-views.ts';
import { verifyJob } from './verify-job.ts';
import type { Workshop } from './workshop.ts';
import { carryOut, takeIn } from './write-entries.ts';

let workshop: Workshop;
beforeEach(async () => {
  workshop = memoryWorkshop();
  await fullJob(workshop);
});

const note = (id: string, text: string) => ({ id, who: 'Ann', wish: { command: 'addNote', text } as const });
const entriesOf = (from: Workshop, job = 'j1') => from.journals.entries(job);
const length = async () => (await workshop.journals.head('j1')).entries;

describe('wishes', () => {
  test('are all carried out or none', async () => {
    const before = await length();
    const impossible = { id: 'n2', who: 'Ann', wish: { command: 'undo', entry: 'nothing' } as const };
    expect(await carryOut(workshop, 'j1', [note('n1', 'x'), impossible])).toMatchObject({ ok: false });
    expect(await length()).toBe(before);
  });

  test('see what those before them did', async () => {
    const undo = { id: 'u1', who: 'Ann', wish: { command: 'undo', entry: 'n1' } as const };
    expect(await carryOut(workshop, 'j1', [note('n1', 'x'), undo])).toMatchObject({ ok: true });
    const view = await jobView(workshop, 'j1');
    expect(view?.job.notes.map(({ text }) => text)).toEqual(['the grille rattles']);
  });

  test('sent twice are done once', async () => {
    const first = await carryOut(workshop, 'j1', [note('n1', 'x')]);
    expect(first).toMatchObject({ ok: true, value: { appended: [{ id: 'n1' }], known: [] } });
    const again = await carryOut(workshop, 'j1', [note('n1', 'x'), note('n2', 'y')]);
    expect(again).toMatchObject({ ok: true, value: { appended: [{ id: 'n2' }], known: ['n1'] } });
  });

  test('of a take wait for its files', async () => {
    const lost = { id: 't', who: 'Ann', wish: takeOf('never sent') };
    expect(await carryOut(workshop, 'j1', [lost])).toMatchObject({
      ok: false,
      issues: [
        { code: 'recording-missing', where: fileNamed('recording never sent') },
        { code: 'track-missing', where: fileNamed('track') },
      ],
    });
  });

  test('of a take say as many bytes as there are', async () => {
    const wish = { ...(await keptTake(workshop, 'door', 9)), bytes: 1 } as Command;
    expect(await carryOut(workshop, 'j1', [{ id: 't', who: 'Ann', wish }])).toMatchObject({
      ok: false,
      issues: [{ code: 'take-differs', message: 'The recording has 5000 bytes, the take says 1.' }],
    });
  });

  test('of many at once all find their place', async () => {
    const before = await length();
    const all = await Promise.all(Array.from({ length: 20 }, (_, n) => carryOut(workshop, 'j1', [note(`n${n}`, 'x')])));
    expect(all.every(({ ok }) => ok)).toBe(true);
    expect(await length()).toBe(before + 20);
    expect(await verifyJob(workshop, 'j1')).toMatchObject({ value: { whole: true } });
    const sequences = (await entriesOf(workshop)).map(({ sequence }) => sequence);
    expect(sequences).toEqual(sequences.map((_, n) => n + 1));
  });

  test('are announced when they are on disk', async () => {
    const heard: number[] = [];
    const end = workshop.listen(({ head }) => heard.push(head.entries));
    await does(workshop, 'j1', { command: 'addNote', text: 'a' });
    await carryOut(workshop, 'j1', [{ id: 'bad', who: 'Ann', wish: { command: 'undo', entry: 'nothing' } }]);
    end();
    await does(workshop, 'j1', { command: 'addNote', text: 'b' });
    expect(heard).toEqual([7]);
  });
});

describe('entries of another device', () => {
  /** A tablet that took the whole job along, with the files. */
  async function tabletWithJob(): Promise<Workshop> {
    const tablet = memoryWorkshop('tablet');
    await keptTake(tablet, 'left door', 1);
    await keptTake(tablet, 'right door', 2);
    const taken = await takeIn(tablet, 'j1', await entriesOf(workshop), await workshop.journals.personalRecords('j1'));
    expect(taken).toMatchObject({ ok: true });
    return tablet;
  }

  test('make the same journal, hash for hash, where there was none', async () => {
    const tablet = await tabletWithJob();
    expect(await entriesOf(tablet)).toEqual(await entriesOf(workshop));
    expect(await verifyJob(tablet, 'j1')).toMatchObject({ value: { whole: true } });
  });

  test('join what was done meanwhile, and both devices come to the same job', async () => {
    const tablet = await tabletWithJob();
    await does(tablet, 'j1', { command: 'changeCovers', covers: [{ cover: 'B', state: 'off' }] });
    await does(workshop, 'j1', { command: 'changeCovers', covers: [{ cover: 'A', state: 'fastened' }] });
    await takeIn(workshop, 'j1', await entriesOf(tablet));
    await takeIn(tablet, 'j1', await entriesOf(workshop));
    const here = await jobView(workshop, 'j1');
    const there = await jobView(tablet, 'j1');
    expect(here?.job).toEqual(there?.job);
    expect(here?.job.covers).toMatchObject([
      { cover: 'A', state: 'fastened' },
      { cover: 'B', state: 'off' },
    ]);
    // Each has its own order, and each is proved by its own chain.
    expect(await verifyJob(workshop, 'j1')).toMatchObject({ value: { whole: true } });
    expect(await verifyJob(tablet, 'j1')).toMatchObject({ value: { whole: true } });
  });

  test('that say something else under a known id are refused, all of them', async () => {
    const entries = (await entriesOf(workshop)) as Entry[];
    const before = entries.length;
    const fresh = { ...entries[5], id: 'fresh' };
    const taken = await takeIn(workshop, 'j1', [fresh, { ...entries[1], who: 'Bob' }]);
    expect(taken).toMatchObject({ ok: false, issues: [{ code: 'entry-differs', where: `entry ${entries[1].id}` }] });
    expect(await length()).toBe(before);
  });

  test('of kinds that are not known here are kept and passed on', async () => {
    const stranger = {
      ...(await entriesOf(workshop))[5],
      id: 's',
      kind: 'seat-heated',
      data: { degrees: 30 },
      mood: 'good',
    };
    await takeIn(workshop, 'j1', [stranger]);
    expect((await entriesOf(workshop)).at(-1)).toMatchObject({
      kind: 'seat-heated',
      data: { degrees: 30 },
      mood: 'good',
    });
    expect((await jobView(workshop, 'j1'))?.job.notUnderstood).toBe(1);
  });

  test('need a job that opens, files that are there, and data of their kind', async () => {
    const [opening, , , take] = (await entriesOf(workshop)) as Entry[];
    const empty = memoryWorkshop('tablet');
    expect(await takeIn(empty, 'j1', [take])).toMatchObject({ issues: [{ code: 'job-unknown' }] });
    expect(await takeIn(empty, 'j1', [opening, take])).toMatchObject({
      issues: [{ code: 'recording-missing' }, { code: 'track-missing' }],
    });
    expect(await takeIn(empty, 'j1', [{ ...opening, data: {} }])).toMatchObject({
      issues: [{ code: 'entry-invalid' }],
    });
    expect(await takeIn(empty, 'j2', [opening])).toMatchObject({ issues: [{ code: 'entry-foreign' }] });
    expect(await takeIn(empty, 'j1', [])).toMatchObject({ ok: true, value: { appended: [] } });
  });

  test('erase here what was erased there, and bring nothing back', async () => {
    const tablet = await tabletWithJob();
    const records = await tablet.journals.personalRecords('j1');
    await does(tablet, 'j1', { command: 'erasePersonal' });
    await takeIn(workshop, 'j1', await entriesOf(tablet));
    expect((await jobView(workshop, 'j1'))?.personal).toMatchObject({ owner: { value: null }, plate: { value: null } });
    await takeIn(workshop, 'j1', await entriesOf(tablet), records);
    expect((await workshop.journals.personalRecords('j1')).map(({ value }) => value)).toEqual([null, null]);
    expect(await verifyJob(workshop, 'j1')).toMatchObject({ value: { whole: true, personalRecords: { erased: 2 } } });
  });

  test('without their personal records leave a gap that is no fault', async () => {
    const tablet = memoryWorkshop('tablet');
    await keptTake(tablet, 'left door', 1);
    await keptTake(tablet, 'right door', 2);
    await takeIn(tablet, 'j1', await entriesOf(workshop));
    expect(await verifyJob(tablet, 'j1')).toMatchObject({ value: { whole: true, personalRecords: { leftOut: 2 } } });
  });
});
