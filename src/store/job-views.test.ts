import { expect, test } from 'vitest';
import { does, fullJob, memoryWorkshop } from '../../test/job/workshops.ts';
import { journalOf } from '../job/journal.ts';
import { summaryOf } from '../job/projections/job-summary.ts';
import { jobSummaries, jobView, keepStates } from './job-views.ts';
import type { JournalStore } from './journal-store.ts';
import { calibrateShopMicrophone, shopMicrophones } from './shop-journal.ts';
import { verifyJob } from './verify-job.ts';
import { makeWorkshop, type Workshop } from './workshop.ts';

/** The views of a workshop, as they are kept. */
function withViews(workshop: Workshop) {
  const views = new Map<string, string>();
  const keepView: JournalStore['keepView'] = async (job, name, key, body) => {
    views.set(`${job} ${name}`, body);
    await workshop.journals.keepView(job, name, key, body);
  };
  return { views, workshop: { ...workshop, journals: { ...workshop.journals, keepView } } };
}

/** The same journal in a process that has just begun. */
const begunAnew = (workshop: Workshop): Workshop => makeWorkshop(workshop, workshop);

test('kept views are what ones made from scratch would be, and follow the journal', async () => {
  const first = memoryWorkshop();
  await fullJob(first);
  const { workshop, views } = withViews(begunAnew(first));
  const shown = await jobView(workshop, 'j1');
  const [line] = await jobSummaries(workshop);
  const scratch = journalOf('j1', await first.journals.entries('j1')).state;
  expect(JSON.parse(views.get('j1 state') ?? '')).toEqual(JSON.parse(JSON.stringify(scratch)));
  expect(JSON.parse(views.get('j1 summary') ?? '')).toEqual(summaryOf(scratch));
  const later = begunAnew(first);
  expect(await jobView(later, 'j1')).toEqual(shown);
  expect(await jobSummaries(later)).toEqual([line]);
  expect(later.held('j1', await first.journals.head('j1'))).toBeNull();
  await does(first, 'j1', { command: 'renameJob', name: 'Six speakers' });
  expect(await jobSummaries(begunAnew(first))).toMatchObject([{ name: 'Six speakers', entries: 7 }]);
  expect((await jobView(begunAnew(first), 'j1'))?.job.name).toBe('Six speakers');
});

test('personal data are in no view', async () => {
  const first = memoryWorkshop();
  await fullJob(first);
  const { workshop, views } = withViews(begunAnew(first));
  await jobView(workshop, 'j1');
  await jobSummaries(workshop);
  expect([...views.values()].join()).not.toContain('Wenbury');
});

test('states in memory are kept at the end, and verify finds a view that was changed', async () => {
  const workshop = memoryWorkshop();
  await fullJob(workshop);
  await jobView(workshop, 'j1');
  await keepStates(workshop);
  expect(await verifyJob(workshop, 'j1')).toMatchObject({ value: { whole: true } });
  const { keptView } = workshop.journals;
  const changed: JournalStore['keptView'] = async (...of) =>
    (await keptView(...of))?.replace('rattles', 'is fine') ?? null;
  const meddled = { ...workshop, journals: { ...workshop.journals, keptView: changed } };
  expect(await verifyJob(meddled, 'j1')).toMatchObject({ value: { whole: false, faults: [{ code: 'view-differs' }] } });
});

test('views that cannot be read, or not be kept, are made anew', async () => {
  const workshop = memoryWorkshop();
  await fullJob(workshop);
  for (const rubbish of ['{', '{}', 'null']) {
    const broken = begunAnew({ ...workshop, journals: { ...workshop.journals, keptView: async () => rubbish } });
    expect(await jobSummaries(broken)).toMatchObject([{ name: 'Four door speakers' }]);
    expect((await jobView(broken, 'j1'))?.job.name).toBe('Four door speakers');
  }
  const keepView = () => Promise.reject(new Error('disk full'));
  const full = begunAnew({ ...workshop, journals: { ...workshop.journals, keptView: async () => null, keepView } });
  expect(await jobSummaries(full)).toMatchObject([{ name: 'Four door speakers' }]);
  expect((await jobView(full, 'j1'))?.job.name).toBe('Four door speakers');
});

test('the job changed last comes first, and the shop is no job', async () => {
  const workshop = memoryWorkshop();
  await does(workshop, 'a', { command: 'createJob', name: 'first', purpose: 'car' });
  await does(workshop, 'b', { command: 'createJob', name: 'second', purpose: 'car' });
  const wish = { command: 'calibrateMicrophone', microphone: 'm1', name: 'M-14', fullScaleSplDb: 120 } as const;
  await calibrateShopMicrophone(workshop, { id: 'c1', who: 'Ann', wish });
  await does(workshop, 'a', { command: 'addNote', text: 'x' });
  expect((await jobSummaries(workshop)).map(({ id }) => id)).toEqual(['a', 'b']);
});

test('a job shows what is known of the person, and nothing of a job that is not there', async () => {
  const workshop = memoryWorkshop();
  await fullJob(workshop);
  expect((await jobView(workshop, 'j1'))?.personal).toMatchObject({
    owner: { value: 'Wenbury Library' },
    plate: { value: 'WB 12 XYZ' },
  });
  expect(await jobView(workshop, 'j2')).toBeNull();
});

test("the shop's microphones keep their newest calibration", async () => {
  const workshop = memoryWorkshop();
  expect(await shopMicrophones(workshop)).toEqual([]);
  const calibration = (id: string, more: object) => ({
    id,
    who: 'Ann',
    wish: { command: 'calibrateMicrophone', microphone: 'm1', name: 'M-14', ...more } as const,
  });
  await calibrateShopMicrophone(workshop, calibration('c1', { fullScaleSplDb: 118 }));
  await calibrateShopMicrophone(workshop, calibration('c1', { fullScaleSplDb: 118 }));
  await calibrateShopMicrophone(workshop, calibration('c2', { method: 'calibrator, 94 dB at 1 kHz' }));
  expect(await shopMicrophones(workshop)).toMatchObject([
    { fullScaleSplDb: 118, method: 'calibrator, 94 dB at 1 kHz' },
  ]);
});
