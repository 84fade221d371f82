import { describe, expect, test } from 'vitest';
import { Bench, openJob } from '../../../test/job/given.ts';
import { planOf } from '../../../test/plan/rule-cases.ts';
import { type Part, type PartKind, partsOf } from '../../plan/plan.ts';
import type { Command } from '../commands/commands.ts';
import { holdPointsOf } from '../hold-points/hold-points.ts';
import { type GainRow, gainSheet, gainSheetSchema } from './gain-sheet.ts';

const edge = (fHz: number) => ({ family: 'linkwitz-riley', order: 4, fHz });

/** A plan without what is left open. */
const planWith = (parts: object) => planOf(JSON.parse(JSON.stringify(parts)));

/** One channel: 75 W of amplifier and of driver in 4 ohm unless told otherwise. */
const chain = (
  more: {
    amplifier?: object;
    driver?: object;
    channel?: object;
    processor?: object;
    load?: object;
    parts?: object;
  } = {},
) =>
  planWith({
    source: [{ id: 'H', kind: 'line', cleanV: 4, outputs: [{ id: 'left' }] }],
    processor: [
      {
        id: 'DSP',
        inputs: [{ id: 'left', maxV: 2, from: 'H/left' }],
        outputs: [{ id: '1', maxV: 4 }],
        headroomDb: 6.0206,
        noiseUv: 25,
        ...more.processor,
      },
    ],
    amplifier: [
      {
        id: 'A',
        name: 'Q4',
        channels: [
          { id: '1', ratings: [{ ohm: 4, powerW: 75 }] },
          { id: '2', ratings: [{ ohm: 4, powerW: 75 }] },
        ],
        sensitivityMinV: 0.2,
        sensitivityMaxV: 5,
        inputNoiseUv: 12,
        ...more.amplifier,
      },
    ],
    channel: [
      {
        id: 'C1',
        output: 'DSP/1',
        amplifier: 'A/1',
        inputs: ['DSP/left'],
        highPass: edge(80),
        lowPass: edge(3000),
        ...more.channel,
      },
    ],
    load: [{ id: 'N1', amplifier: 'A/1', network: 'D1/1', ...more.load }],
    driver: [
      {
        id: 'D1',
        kind: 'mid',
        coils: 1,
        coilOhm: 4,
        reOhm: 3.4,
        thermalW: 75,
        sensitivityDb: 91,
        sensitivityAt: '2.83V',
        place: 'P1',
        ...more.driver,
      },
    ],
    place: [{ id: 'P1' }],
    seat: [{ id: 'SEAT', distances: [{ place: 'P1', distanceM: 0.8 }] }],
    ...more.parts,
  });

const jobWith = (plan: ReturnType<typeof chain>) =>
  new Bench().does(openJob, {
    command: 'changePlan',
    changes: [...partsOf(plan)].map(({ kind, part }) => ({ part: kind, id: part.id, value: part })),
  });
const sheetOf = (plan: ReturnType<typeof chain>) => gainSheet(jobWith(plan).state);
const rowOf = (more?: Parameters<typeof chain>[0]): GainRow => sheetOf(chain(more)).channels[0];
const read = (id: string, value: number, more: object = {}): Command => ({
  command: 'giveEvidence',
  holdPoints: [id],
  evidence: { how: 'measured', value, unit: 'V', ...more },
});

describe('the target', () => {
  test('is the power wanted in the load: 75 W in 4 ohm are 17.3 V, and a tone 20 dB below is a tenth', () => {
    const { target, tone, reading } = rowOf();
    expect(target).toMatchObject({ fullV: expect.closeTo(17.32, 2), limitedBy: 'amplifier' });
    // A third of the meter's 1 kHz; the middle of the band is 490 Hz.
    expect(tone).toMatchObject({ fHz: 333, toneDbfs: -20, inPassband: true });
    // LR4 at 80 and at 3000 Hz.
    const passed = 1 / (1 + (80 / 333) ** 4) / (1 + (333 / 3000) ** 4);
    expect(reading?.targetV).toBeCloseTo(1.7321 * passed, 4);
    expect(reading?.unloadedV).toBeCloseTo(0.97 * 1.7321 * passed, 4);
  });

  test('is what the driver stands where that is less', () => {
    // 36 W in 4 ohm.
    expect(rowOf({ driver: { thermalW: 36 } }).target).toMatchObject({ fullV: 12, limitedBy: 'driver' });
    expect(rowOf({ driver: { targetV: 9.4 } }).target).toMatchObject({ fullV: 9.4, limitedBy: 'driver' });
  });

  test('counts overlap: the amplifier reaches its limit with a tone so much below full scale', () => {
    const [none, some] = [rowOf(), rowOf({ channel: { overlapDb: 5 } })];
    expect(20 * Math.log10((some.reading?.targetV ?? 0) / (none.reading?.targetV ?? 1))).toBeCloseTo(5, 9);
  });

  test('plays through a full-range setting where the meter cannot follow the channel', () => {
    const { tone, reading, says } = rowOf({ channel: { highPass: edge(2600), lowPass: null } });
    expect(tone).toMatchObject({ fHz: 333, inPassband: false, filterDb: 0 });
    expect(reading?.targetV).toBeCloseTo(1.7321, 4);
    expect(says).toContain('full-range setting with the driver unplugged, then restore');
  });

  test('of a bridged pair is one, at twice the volts', () => {
    const { channels } = sheetOf(chain({ amplifier: { bridgeable: true }, load: { bridgedWith: 'A/2' } }));
    expect(channels).toHaveLength(1);
    // Each half sees 2 ohm, which the sheet does not list, so it is told only with a rating there.
    expect(channels[0].needs).toContain('the power of its amplifier into its load');
    const ratings = [
      {
        id: '1',
        ratings: [
          { ohm: 4, powerW: 75 },
          { ohm: 2, powerW: 120 },
        ],
      },
      { id: '2' },
    ];
    const bridged = rowOf({
      amplifier: { channels: ratings },
      load: { bridgedWith: 'A/2' },
      driver: { thermalW: 500 },
    });
    // 2 x 120 W in 4 ohm.
    expect(bridged.target?.fullV).toBeCloseTo(Math.sqrt(240 * 4), 6);
  });
});

describe('where the gains stand', () => {
  test('as much out of the processor as the amplifier takes, so little gain in the amplifier', () => {
    const { settings } = rowOf();
    // 4 V less 6.02 dB are 2 V: the amplifier is to clip with 2 V. The source has 4 V for an input of 2: 6.02 dB too much.
    expect(settings).toMatchObject({
      processorOutV: expect.closeTo(2, 4),
      processorTrimDb: 0,
      amplifierSensitivityV: expect.closeTo(2, 4),
      amplifierGainDb: expect.closeTo(20 * Math.log10(17.3205 / 2), 3),
      inputPadDb: expect.closeTo(-6.0206, 3),
      shortDb: 0,
    });
  });

  test('by the ceiling that was measured, once it was', () => {
    const bench = jobWith(chain());
    expect(gainSheet(bench.state).sources).toMatchObject([{ cleanV: 4, from: 'data-sheet', state: 'open' }]);
    bench.does(read('source H ceiling', 1.8));
    const { sources, channels } = gainSheet(bench.state);
    expect(sources).toMatchObject([
      { cleanV: 1.8, from: 'measured', state: 'closed', says: 'H is clean to 1.8 V, measured.' },
    ]);
    expect(channels[0].settings?.inputPadDb).toBeCloseTo(0, 9);
    expect(channels[0].settings?.inputBelowFullDb).toBeCloseTo(20 * Math.log10(0.9), 9);
    // Another source: what was measured is of the old one.
    bench.does({ command: 'setPlanPart', part: 'source', id: 'H', value: { kind: 'balanced', cleanV: 4 } });
    expect(gainSheet(bench.state).sources).toMatchObject([{ cleanV: 4, from: 'data-sheet', state: 're-opened' }]);
  });
});

test('hiss at the seat: 26 dB of gain on 25 and 12 microvolts are 553, 19 dB SPL at 0.8 m from 91 dB', () => {
  // 400 W in 4 ohm are 40 V; 2 V in, 40 V out.
  const loud = {
    amplifier: { channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 400 }] }] },
    driver: { thermalW: 400 },
  };
  const [hiss] = rowOf(loud).hiss;
  expect(hiss).toMatchObject({ driver: 'D1', verdict: 'ok', distanceM: 0.8, splDb: expect.closeTo(18.8, 1) });
});

describe('a reading', () => {
  const bench = () => jobWith(chain({ channel: { highPass: null, lowPass: null } }));
  const row = (made: Bench) => gainSheet(made.state).channels[0];
  const targetV = 1.73205;

  test.each([
    [0.51, 'too-high', 'open', 'Turn it down by 0.51 dB'],
    [0.49, 'within', 'closed', '+0.5 dB from its target'],
    [-0.49, 'within', 'closed', '-0.5 dB from its target'],
    [-0.7, 'too-low', 'open', 'Turn it up by 0.7 dB'],
  ] as const)('%s dB off its target is %s: the hold point is %s', (offDb, verdict, state, says) => {
    const made = bench().does(read('gain A/1 set', targetV * 10 ** (offDb / 20)));
    expect(row(made)).toMatchObject({ verdict, state, measured: { offDb: expect.closeTo(offDb, 3), who: 'Ann' } });
    expect(row(made).says).toContain(says);
    expect(holdPointsOf(made.state).find(({ id }) => id === 'gain A/1 set')?.state).toBe(state);
  });

  test('of a chain that has changed since is doubtful', () => {
    const made = bench().does(read('gain A/1 set', targetV));
    made.does({ command: 'setPlanPart', part: 'processor', id: 'DSP', value: { outputs: [{ id: '1', maxV: 8 }] } });
    expect(row(made)).toMatchObject({ verdict: 'doubtful', state: 're-opened' });
    expect(row(made).says).toContain('read it again');
  });

  test('in another unit is no volts', () => {
    const unknown = jobWith(chain({ channel: { highPass: undefined } }));
    unknown.does(read('gain A/1 set', 47, { unit: 'ohm' }));
    expect(row(unknown)).toMatchObject({ measured: null, verdict: 'cannot-tell' });
    const { id, ...channel } = chain().channel[0];
    unknown.does({ command: 'setPlanPart', part: 'channel', id, value: channel });
    expect(row(unknown)).toMatchObject({ measured: null, verdict: 'not-measured' });
  });

  test('of nothing has no decibels', () => {
    expect(row(bench().does(read('gain A/1 set', 0)))).toMatchObject({ verdict: 'too-low', measured: { offDb: null } });
  });
});

describe('what cannot be computed', () => {
  const lacks: [string, Parameters<typeof chain>[0], string][] = [
    [
      'the power of the amplifier',
      { amplifier: { channels: [{ id: '1' }] } },
      'the power of its amplifier into its load',
    ],
    ['what the driver stands', { driver: { thermalW: undefined } }, 'the power that its drivers stand'],
    ['the crossover', { channel: { highPass: undefined } }, 'the crossover of C1'],
    ['the channel', { channel: { amplifier: 'A/2' } }, 'the channel that feeds it'],
  ];
  test.each(lacks)('for want of %s says so, and nothing is made up', (_, more, needs) => {
    const found = rowOf(more);
    expect(found).toMatchObject({ reading: null, verdict: 'cannot-tell' });
    expect(found.needs).toContain(needs);
    expect(found.says).toContain(`${needs}`);
  });

  test('is null in a sheet that keeps its form, for plans of whatever is there', () => {
    const full = chain();
    for (const { kind, part } of partsOf(full)) {
      const plan = { ...full, [kind as PartKind]: (full[kind] as Part[]).filter((known) => known !== part) };
      const sheet = sheetOf(plan);
      expect(gainSheetSchema.parse(JSON.parse(JSON.stringify(sheet)))).toEqual(sheet);
    }
  });
});
