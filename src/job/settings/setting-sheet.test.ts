import { describe, expect, test } from 'vitest';
import { planOf } from '../../../test/plan/rule-cases.ts';
import { initialState } from '../projections/evolve.ts';
import { dialled } from './dialled.ts';
import { type OutputSheet, settingSheet, settingSheetSchema } from './setting-sheet.ts';

const edge = (fHz: number) => ({ family: 'linkwitz-riley', order: 4, fHz });

/** A tweeter of 1500 Hz resonance on one channel of a processor. */
const planWith = (
  more: { channel?: object; dials?: object; driver?: object; load?: object; channels?: object[] } = {},
) =>
  planOf({
    processor: [{ id: 'DSP', outputs: [{ id: '1' }, { id: '2' }], dials: { ...more.dials } }],
    amplifier: [{ id: 'A', channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 75 }] }] }],
    driver: [
      {
        id: 'T',
        kind: 'tweeter',
        coils: 1,
        coilOhm: 4,
        reOhm: 3.2,
        fsHz: 1500,
        qms: 2,
        qes: 1,
        sdCm2: 6,
        mmsG: 0.3,
        xmaxMm: 0.5,
        ...more.driver,
      },
    ],
    load: [{ id: 'N', amplifier: 'A/1', network: 'T/1', ...more.load }],
    channel: [
      { id: 'C', output: 'DSP/1', amplifier: 'A/1', inputs: ['DSP/left'], ...more.channel },
      ...(more.channels ?? []),
    ],
  });

function sheetOf(plan: ReturnType<typeof planOf>) {
  const state = initialState('plan');
  const sheet = settingSheet({ ...state, plan: { ...state.plan, parts: plan } });
  expect(settingSheetSchema.parse(sheet)).toEqual(sheet);
  return sheet;
}

const first = (plan: ReturnType<typeof planOf>): OutputSheet => sheetOf(plan).processors[0].outputs[0];
const rowOf = ({ rows }: OutputSheet, setting: string) => rows.find((row) => row.setting === setting);

describe('the high-pass to begin with', () => {
  test('is the planned one where the driver bears it', () => {
    const sheet = first(planWith({ channel: { highPass: edge(4000), lowPass: null } }));
    expect(rowOf(sheet, 'high-pass frequency')).toMatchObject({ start: 4000, planned: 4000, unit: 'Hz' });
    expect(rowOf(sheet, 'low-pass family')).toMatchObject({ start: 'off', planned: 'off' });
    expect(sheet.notes).toEqual([]);
  });

  test('is raised to what the driver bears, the plan left as it is', () => {
    const sheet = first(planWith({ channel: { highPass: edge(1600), lowPass: null } }));
    const row = rowOf(sheet, 'high-pass frequency');
    // One and a half times its resonance at least.
    expect(row?.start).toBeGreaterThanOrEqual(2250);
    expect(row?.planned).toBe(1600);
    expect(sheet.notes[0]).toMatch(/^T bears nothing lower than \d+ Hz/);
  });

  test('rises to the next step of the processor, never falls', () => {
    const dials = { crossoverStepHz: 100 };
    const sheet = first(planWith({ channel: { highPass: edge(4010), lowPass: null }, dials }));
    expect(rowOf(sheet, 'high-pass frequency')).toMatchObject({ start: 4100, planned: 4000 });
    expect(rowOf(sheet, 'high-pass frequency')?.note).toBe(
      '4010 Hz is planned; nearest that can be dialled in is 4000 Hz.',
    );
  });

  test('is that of practice where none is planned, and says so', () => {
    const sheet = first(planWith());
    expect(rowOf(sheet, 'high-pass frequency')).toMatchObject({ start: 5000, planned: null });
    expect(rowOf(sheet, 'high-pass slope')).toMatchObject({ start: 24, planned: null });
    expect(sheet.notes[0]).toContain('by practice for a tweeter');
  });

  test('is not asked for behind a passive crossover', () => {
    const plan = planWith({ channel: { highPass: null, lowPass: null }, load: { passive: { fHz: 3000 } } });
    expect(rowOf(first(plan), 'high-pass family')).toMatchObject({ start: 'off', planned: 'off' });
  });

  test('says what it cannot tell', () => {
    const plan = planWith({ channel: { highPass: edge(3000), lowPass: null } });
    delete plan.driver[0].xmaxMm;
    expect(first(plan).notes[0]).toMatch(/cannot tell, how far its cone may move/);
  });
});

describe('the other settings', () => {
  const channel = { highPass: edge(3000), lowPass: null, gainDb: -3.3, delayMs: 1.234, polarity: -1 };

  test('start low, keep the planned polarity, and stand on the steps of the processor', () => {
    const dials = { gainStepDb: 0.5, gainMinDb: -12, delayStepMs: 0.02, delayMaxMs: 1 };
    const sheet = first(planWith({ channel, dials }));
    expect(rowOf(sheet, 'polarity')).toMatchObject({ start: 'inverted', planned: 'inverted' });
    expect(rowOf(sheet, 'gain')).toMatchObject({ start: -12, planned: -3.5, within: 0.25 });
    expect(rowOf(sheet, 'delay')).toMatchObject({ start: 1, planned: 1, within: 0.01 });
    expect(rowOf(sheet, 'delay')?.note).toBe('1.23 ms is planned; nearest that can be dialled in is 1 ms.');
  });

  test('of the equaliser start flat, and more bands than there are are told', () => {
    const eq = [
      { type: 'peaking', fHz: 4000, gainDb: -6.2, q: 2 },
      { type: 'high-shelf', fHz: 9000, gainDb: 2, q: 0.7 },
    ];
    const sheet = first(planWith({ channel: { ...channel, eq }, dials: { eqBands: 1, eqGainStepDb: 0.5 } }));
    expect(rowOf(sheet, 'eq 1 gain')).toMatchObject({ start: 0, planned: -6 });
    expect(rowOf(sheet, 'eq 2 type')).toMatchObject({ start: null, planned: 'high-shelf' });
    expect(rowOf(sheet, 'eq 1 type')?.note).toBe('2 bands are planned; the processor has 1.');
  });

  test('that the processor does not have are told', () => {
    const dials = { crossoverFamilies: ['butterworth'], crossoverOrders: [1, 2] };
    const sheet = first(planWith({ channel, dials }));
    expect(rowOf(sheet, 'high-pass family')?.note).toBe('linkwitz-riley is planned; the processor has butterworth.');
    expect(rowOf(sheet, 'high-pass slope')?.note).toBe('24 dB/octave is planned; the processor has 6, 12.');
  });
});

test('outputs stand in the order of the processor; channels without one are named, spare ones are not', () => {
  const channels = [{ id: 'E', output: 'DSP/2' }, { id: 'F' }, { id: 'S', spare: true }];
  const plan = planWith({ channel: { output: 'DSP/2' }, channels });
  plan.channel[1].output = 'DSP/1';
  const { processors, without } = sheetOf(plan);
  expect(processors[0].outputs.map(({ output, channel }) => [output, channel])).toEqual([
    ['DSP/1', 'E'],
    ['DSP/2', 'C'],
  ]);
  expect(without.map(({ channel }) => channel)).toEqual(['F']);
});

test('a dial has whole steps from 0, inside its ends', () => {
  expect(dialled(0.3, { step: 0.1 })).toEqual({ value: 0.3, moved: false });
  expect(dialled(-3.26, { step: 0.5 })).toEqual({ value: -3.5, moved: true });
  expect(dialled(80.1, { step: 1, up: true })).toEqual({ value: 81, moved: true });
  expect(dialled(80, { step: 1, up: true })).toEqual({ value: 80, moved: false });
  expect(dialled(-30, { min: -12 })).toEqual({ value: -12, moved: true });
  expect(dialled(7.77, {})).toEqual({ value: 7.77, moved: false });
});
