import { expect, test } from 'vitest';
import { does, fullJob, memoryWorkshop } from '../../test/job/workshops.ts';
import { summaryOf } from '../job/projections/job-summary.ts';
import { jobSummaries, jobView } from './job-views.ts';
import { calibrateShopMicrophone, shopMicrophones } from './shop-journal.ts';

test('a kept summary is what one made from scratch would be', async () => {
  const workshop = memoryWorkshop();
  await fullJob(workshop);
  const [first] = await jobSummaries(workshop);
  const { hash } = await workshop.journals.head('j1');
  const kept = await workshop.journals.keptView('j1', 'summary-1', hash);
  const scratch = summaryOf((await workshop.load('j1')).journal.state);
  expect(JSON.parse(kept ?? '')).toEqual(scratch);
  expect(first).toEqual(scratch);
  await does(workshop, 'j1', { command: 'renameJob', name: 'Six speakers' });
  expect(await jobSummaries(workshop)).toMatchObject([{ name: 'Six speakers', entries: 7 }]);
});

test('a kept summary that cannot be read, or not be kept, is made anew', async () => {
  const workshop = memoryWorkshop();
  await fullJob(workshop);
  const { hash } = await workshop.journals.head('j1');
  for (const rubbish of ['{', '{}', 'null']) {
    await workshop.journals.keepView('j1', 'summary-1', hash, rubbish);
    expect(await jobSummaries(workshop)).toMatchObject([{ name: 'Four door speakers' }]);
  }
  const full = {
    ...workshop,
    journals: {
      ...workshop.journals,
      keptView: async () => null,
      keepView: () => Promise.reject(new Error('disk full')),
    },
  };
  expect(await jobSummaries(full)).toMatchObject([{ name: 'Four door speakers' }]);
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
