import { describe, expect, test } from 'vitest';
import { Bench, fileNamed, openJob } from '../../../test/job/given.ts';
import { planOf } from '../../../test/plan/rule-cases.ts';
import type { PartKind } from '../../plan/plan.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import type { Command } from '../commands/commands.ts';
import type { Evidence } from './evidence-forms.ts';
import { type HoldPoint, holdPointSchema, holdPointsOf, holdPointsOfPlan } from './hold-points.ts';

const set = (part: PartKind, id: string, value: object = {}): Command => ({
  command: 'setPlanPart',
  part,
  id,
  value: value as Record<string, unknown>,
});
const give = (evidence: Evidence, ...holdPoints: string[]): Command => ({
  command: 'giveEvidence',
  holdPoints,
  evidence,
});
const measured = (value: number | 'open', unit: 'V' | 'ohm' | 'mOhm' | 'A' | 'kOhm', more: object = {}): Evidence => ({
  how: 'measured',
  value,
  unit,
  ...more,
});
const seen: Evidence = { how: 'seen', name: 'Ben' };
const take = (id: string): Command => ({
  command: 'recordTake',
  take: id,
  name: `near ${id}`,
  recording: fileNamed(id),
  bytes: 1000,
  track: fileNamed('track'),
});

/** One channel from source to a door driver, with its power. */
const parts: [PartKind, string, object][] = [
  ['cover', 'door', { letter: 'B', hides: ['D1', 'L1'] }],
  ['cover', 'seat', { hides: ['A'] }],
  ['place', 'P1', { covers: ['door'] }],
  ['source', 'H', { kind: 'line', cleanV: 4 }],
  ['processor', 'DSP', { outputs: [{ id: '1', maxV: 4 }], headroomDb: 6 }],
  [
    'amplifier',
    'A',
    { channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 100 }] }], sensitivityMinV: 0.2, sensitivityMaxV: 5 },
  ],
  ['driver', 'D1', { kind: 'midbass', coils: 1, coilOhm: 4, reOhm: 3.4, thermalW: 75, place: 'P1' }],
  ['load', 'N1', { amplifier: 'A/1', network: 'D1/1' }],
  [
    'channel',
    'C1',
    {
      output: 'DSP/1',
      amplifier: 'A/1',
      highPass: { family: 'linkwitz-riley', order: 4, fHz: 80 },
      lowPass: { family: 'linkwitz-riley', order: 4, fHz: 500 },
    },
  ],
  ['lead', 'L1', { kind: 'speaker', from: 'A/1', to: 'D1' }],
  ['run', 'R1', { from: 'BAT', to: 'A', areaMm2: 25, material: 'copper' }],
  ['battery', 'BAT', {}],
  ['fuse', 'F1', { run: 'R1', ratedA: 60 }],
  ['ground', 'G1', { of: 'A' }],
  ['enclosure', 'BOX', { kind: 'sealed', netL: 20 }],
];
const bench = () => new Bench().does(openJob, ...parts.map(([part, id, value]) => set(part, id, value)));
const at = (made: Bench, id: string): HoldPoint => {
  const found = holdPointsOf(made.state).find((point) => point.id === id);
  if (found === undefined) throw new Error(`no ${id}`);
  return found;
};
const stateAt = (made: Bench, id: string) => at(made, id).state;

/** 75 W in 4 ohm is 17.32 V; a tone 20 dB below is a tenth of it. The crossover takes nothing off in the middle of its band. */
const gainV = 1.732;

describe('a plan opens', () => {
  const points = holdPointsOf(bench().state);
  const ids = points.map(({ id }) => id);

  test('one hold point for each thing to prove, named after its part', () => {
    expect(ids).toEqual([
      'run R1 laid',
      'fuse F1 fitted',
      'ground G1 holds',
      'lead L1 connected',
      'load N1 coils',
      'channel C1 reaches',
      'driver D1 polarity',
      'source H ceiling',
      'gain A/1 set',
      'enclosure BOX fixed',
      'processor DSP settings',
    ]);
    expect(points.every(({ state }) => state === 'open')).toBe(true);
    for (const point of points) expect(holdPointSchema.parse(point)).toEqual(point);
  });

  test('factory sounds and calls only where the source is of the factory, or has calls', () => {
    const of = (source: object) =>
      holdPointsOfPlan(planOf({ source: [{ id: 'H', ...source }] }))
        .map(({ kind }) => kind)
        .filter((kind) => kind !== 'source-ceiling');
    expect(of({ kind: 'line' })).toEqual([]);
    expect(of({ factory: true })).toEqual(['factory-sounds', 'calls-heard']);
    expect(of({ kind: 'speaker' })).toEqual(['factory-sounds', 'calls-heard']);
    expect(of({ kind: 'speaker', calls: false })).toEqual(['factory-sounds']);
    expect(of({ kind: 'line', calls: true })).toEqual(['calls-heard']);
    expect(of({ kind: 'speaker', factory: false })).toEqual([]);
  });

  test('what a meter should read, computed from the plan', () => {
    const expected = (id: string) => points.find((point) => point.id === id)?.expected;
    // 3.4 ohm within 10 %.
    expect(expected('load N1 coils')?.low).toBeCloseTo(3.06, 9);
    expect(expected('load N1 coils')?.high).toBeCloseTo(3.74, 9);
    expect(expected('fuse F1 fitted')).toEqual({ low: 60, high: 60, target: 60, unit: 'A' });
    expect(expected('ground G1 holds')?.high).toBe(0.005);
    // At 200 Hz, an octave and more inside both corners: LR4 at 80 and 500 Hz leave 1 / (1 + (80/200)^4) and
    // 1 / (1 + (200/500)^4) of the volts.
    const passed = 1 / (1 + 0.4 ** 4) ** 2;
    const { target, low, high } = expected('gain A/1 set') as { target: number; low: number; high: number };
    expect(target).toBeCloseTo((Math.sqrt(75 * 4) / 10) * passed, 6);
    expect([20 * Math.log10(high / target), 20 * Math.log10(low / target)]).toEqual([
      expect.closeTo(0.5, 9),
      expect.closeTo(-0.5, 9),
    ]);
  });

  test('what is not known of that by name', () => {
    const made = bench().does(set('driver', 'D1', { kind: 'midbass', place: 'P1' }));
    expect(at(made, 'load N1 coils')).toMatchObject({ expected: null, needs: 'the ohms of its coils' });
    expect(at(made, 'gain A/1 set')).toMatchObject({
      expected: null,
      needs: 'the power of its amplifier into its load',
    });
    expect(at(made, 'gain A/1 set').reason).toContain('needs the power of its amplifier into its load');
  });

  test('which covers hide each, by place, route and what covers say; and where that is not known', () => {
    const covers = (id: string) => points.find((point) => point.id === id)?.covers.map(({ cover }) => cover);
    expect(covers('lead L1 connected')).toEqual(['door', 'seat']);
    expect(covers('driver D1 polarity')).toEqual(['door']);
    expect(covers('gain A/1 set')).toEqual(['seat']);
    expect(covers('ground G1 holds')).toEqual(['seat']);
    expect(points.find(({ id }) => id === 'load N1 coils')).toMatchObject({ opens: ['seat'] });
    // Its end is at the amplifier; its fuse is where nobody said what covers it.
    expect(covers('run R1 laid')).toEqual(['seat']);
    expect(points.find(({ id }) => id === 'fuse F1 fitted')).toMatchObject({ covers: [], coversKnown: false });
    expect(points.find(({ id }) => id === 'source H ceiling')).toMatchObject({ covers: [], coversKnown: true });
  });

  test('nothing where it is empty', () => {
    expect(holdPointsOf(new Bench().does(openJob).state)).toEqual([]);
  });
});

describe('evidence closes', () => {
  test('a reading within what is expected, and says by whom and with what', () => {
    const made = bench().does(give(measured(3400, 'mOhm'), 'load N1 coils'));
    expect(at(made, 'load N1 coils')).toMatchObject({
      state: 'closed',
      reason: '3400 mOhm (Ann).',
      evidence: [{ entry: made.entries.at(-1)?.id, who: 'Ann', how: 'measured', verdict: 'proves' }],
    });
    expect(made.entries.at(-1)).toMatchObject({
      kind: 'evidence-given',
      data: { expected: { low: expect.closeTo(3.06, 6), unit: 'ohm' } },
    });
  });

  test.each([
    ['gain A/1 set', measured(gainV, 'V')],
    ['ground G1 holds', measured(4.9, 'mOhm')],
    ['fuse F1 fitted', measured(60, 'A')],
    ['run R1 laid', measured('open', 'ohm')],
    ['run R1 laid', measured(150, 'kOhm')],
    ['source H ceiling', measured(3.1, 'V')],
    ['driver D1 polarity', seen],
    ['enclosure BOX fixed', seen],
    ['processor DSP settings', seen],
  ])('%s', (id, evidence) => {
    expect(stateAt(bench().does(give(evidence, id)), id)).toBe('closed');
  });

  test('a gain that was read with another tone, by what that tone gives', () => {
    const loud = measured(gainV * 10 ** 0.5, 'V', { toneDbfs: -10 });
    expect(stateAt(bench().does(give(loud, 'gain A/1 set')), 'gain A/1 set')).toBe('closed');
    expect(stateAt(bench().does(give(measured(gainV * 10 ** 0.5, 'V'), 'gain A/1 set')), 'gain A/1 set')).toBe('open');
  });

  test('many points with one take', () => {
    const all = ['lead L1 connected', 'channel C1 reaches', 'driver D1 polarity'];
    const made = bench().does(take('T1'), give({ how: 'take', take: 'T1' }, ...all));
    expect(all.map((id) => stateAt(made, id))).toEqual(['closed', 'closed', 'closed']);
    expect(at(made, all[0]).reason).toBe('Take near T1 (Ann).');
  });

  test('as a reading or a proof that stands in the plan', () => {
    const made = bench().does(
      set('reading', 'M1', { of: 'L1', quantity: 'resistance', value: 3.5 }),
      set('reading', 'M2', { of: 'G1', quantity: 'ground-drop', value: 0.1, currentA: 25 }),
      set('holdPoint', 'H1', { of: 'L1', name: 'grommet in the door', behind: ['door'], proof: 'looked at' }),
    );
    expect(['load N1 coils', 'ground G1 holds', 'point H1 proven'].map((id) => stateAt(made, id))).toEqual([
      'closed',
      'closed',
      'closed',
    ]);
  });
});

describe('evidence does not close', () => {
  test.each([
    ['load N1 coils', measured(7.2, 'ohm'), 'It reads 7.2 ohm; expected is 3.06 to 3.74 ohm.'],
    ['load N1 coils', measured('open', 'ohm'), 'It reads open; expected is 3.06 to 3.74 ohm.'],
    ['fuse F1 fitted', measured(80, 'A'), 'It reads 80 A; expected is 60 A.'],
    ['ground G1 holds', measured(5.1, 'mOhm'), 'It reads 5.1 mOhm; expected is 0 to 5 mOhm.'],
    ['run R1 laid', measured(99_000, 'ohm'), 'It reads 99 kohm; expected is 100 kohm or more.'],
    ['gain A/1 set', measured(gainV * 1.08, 'V'), 'It reads 1.87 V'],
  ])('%s with a value outside: it is written down, and the numbers say why', (id, evidence, says) => {
    const made = bench().does(give(evidence, id));
    expect(at(made, id)).toMatchObject({ state: 'open', evidence: [{ verdict: 'outside' }] });
    expect(at(made, id).reason).toContain(says);
  });

  test('what was read wrong, however often somebody says that it is right; a right reading does', () => {
    const made = bench().does(give(measured(9, 'mOhm'), 'ground G1 holds'), give(seen, 'ground G1 holds'));
    expect(stateAt(made, 'ground G1 holds')).toBe('re-opened');
    made.does(give(measured(2, 'mOhm'), 'ground G1 holds'));
    expect(stateAt(made, 'ground G1 holds')).toBe('closed');
  });

  test('a reading that fits the plan and something else too, until a second one tells them apart', () => {
    // Four coils, two and two: 3.6 ohm like each of them alone.
    const network = { p: [{ s: ['D1/1', 'D1/2'] }, { s: ['D2/1', 'D2/2'] }] };
    const coils = { kind: 'sub', coils: 2, coilOhm: 4, reOhm: 3.6 };
    const made = bench().does(set('driver', 'D1', coils), set('driver', 'D2', coils));
    made.does(set('load', 'N1', { amplifier: 'A/1', network }), give(measured(3.6, 'ohm'), 'load N1 coils'));
    expect(at(made, 'load N1 coils')).toMatchObject({ state: 'open', evidence: [{ verdict: 'cannot-tell' }] });
    expect(at(made, 'load N1 coils').reason).toContain('unplug one driver');
    // With D2 unplugged the two coils of D1 in series are left.
    made.does(give(measured(7.2, 'ohm', { without: ['D2'] }), 'load N1 coils'));
    expect(at(made, 'load N1 coils').evidence.map(({ verdict }) => verdict)).toEqual(['cannot-tell', 'proves']);
    expect(stateAt(made, 'load N1 coils')).toBe('closed');
  });
});

describe('a closed hold point opens again', () => {
  const closedBy: [string, Evidence][] = [
    ['lead L1 connected', seen],
    ['load N1 coils', measured(3.4, 'ohm')],
    ['channel C1 reaches', seen],
    ['driver D1 polarity', seen],
    ['gain A/1 set', measured(gainV, 'V')],
    ['ground G1 holds', seen],
    ['fuse F1 fitted', seen],
    ['run R1 laid', seen],
    ['source H ceiling', measured(3, 'V')],
    ['processor DSP settings', seen],
    ['enclosure BOX fixed', seen],
  ];
  const closed = () => bench().does(...closedBy.map(([id, evidence]) => give(evidence, id)));
  const opened = (...wishes: Command[]) => {
    const made = closed().does(...wishes);
    return holdPointsOf(made.state)
      .filter(({ state }) => state === 're-opened')
      .map(({ id }) => id);
  };
  const value = (id: string) => parts.find(([, known]) => known === id)?.[2] as Record<string, unknown>;
  const changed = (part: PartKind, id: string, more: object) => set(part, id, { ...value(id), ...more });

  test('all are closed to begin with', () => {
    expect(opened()).toEqual([]);
    expect(closed().state.evidence).toHaveLength(11);
  });

  const driverPoints = [
    'lead L1 connected',
    'load N1 coils',
    'channel C1 reaches',
    'driver D1 polarity',
    'gain A/1 set',
  ];

  test.each<[string, Command[], string[]]>([
    ['when its lead changes', [changed('lead', 'L1', { lengthM: 4 })], driverPoints.slice(0, 4)],
    ['when its driver is another one', [changed('driver', 'D1', { reOhm: 3.3 })], driverPoints],
    ['when its amplifier is another one', [changed('amplifier', 'A', { sensitivityMinV: 0.3 })], ['gain A/1 set']],
    [
      'when the channels of its amplifier change',
      [changed('amplifier', 'A', { channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 120 }] }] })],
      ['ground G1 holds', 'lead L1 connected', 'channel C1 reaches', 'gain A/1 set'],
    ],
    ['when its coils are wired otherwise', [changed('load', 'N1', { network: { s: ['D1/1'] } })], driverPoints],
    ['when its run changes', [changed('run', 'R1', { areaMm2: 35 })], ['run R1 laid', 'fuse F1 fitted']],
    ['when its fuse changes', [changed('fuse', 'F1', { ratedA: 80 })], ['fuse F1 fitted']],
    ['when its ground lead changes', [changed('ground', 'G1', { point: 'seat bolt' })], ['ground G1 holds']],
    ['when its box changes', [changed('enclosure', 'BOX', { netL: 30 })], ['enclosure BOX fixed']],
    ['when its source changes', [changed('source', 'H', { kind: 'balanced' })], ['source H ceiling']],
    [
      'when a setting changes after it was read back',
      [changed('channel', 'C1', { delayMs: 2 })],
      ['processor DSP settings'],
    ],
    [
      'when its channel goes elsewhere',
      [changed('channel', 'C1', { polarity: -1, output: 'DSP/2' })],
      ['channel C1 reaches', 'driver D1 polarity', 'gain A/1 set', 'processor DSP settings'],
    ],
    [
      'when a second load comes to its amplifier channel',
      [set('load', 'N2', { amplifier: 'A/1', network: 'D1/2' })],
      ['lead L1 connected', 'channel C1 reaches', 'driver D1 polarity', 'gain A/1 set'],
    ],
  ])('%s', (_, wishes, ids) => {
    const list = opened(...wishes);
    expect(list.filter((id) => ids.includes(id))).toEqual(list);
    expect([...list].sort()).toEqual([...ids].sort());
  });

  test('and says which change did it, and when', () => {
    const made = closed().does(changed('amplifier', 'A', { sensitivityMinV: 0.3 }));
    const { reason, evidence } = at(made, 'gain A/1 set');
    expect(reason).toBe('amplifier A was changed on 2026-03-04 08:28, after it was proven.');
    expect(evidence[0].doubt).toMatchObject({ entry: made.entries.at(-1)?.id, part: 'amplifier', id: 'A', who: 'Ann' });
  });

  test('not for words, and not for what does not matter to it', () => {
    expect(opened(changed('lead', 'L1', { colour: 'blue', note: 'long' }))).toEqual([]);
    expect(opened(changed('amplifier', 'A', { ambientC: 50 }), changed('run', 'R1', { shortTested: true }))).toEqual(
      [],
    );
  });

  test('also when the change is taken back by a change, but not when it is undone', () => {
    const back = [changed('lead', 'L1', { lengthM: 4 }), set('lead', 'L1', value('L1'))];
    expect(opened(...back)).toEqual(driverPoints.slice(0, 4));
    const made = closed().does(changed('lead', 'L1', { lengthM: 4 }));
    made.does({ command: 'undo', entry: made.entries.at(-1)?.id ?? '' });
    expect(stateAt(made, 'lead L1 connected')).toBe('closed');
  });

  test('when what it was proven of is undone, and when that is undone again', () => {
    const made = bench().does(changed('lead', 'L1', { lengthM: 4 }), give(seen, 'lead L1 connected'));
    const change = made.entries.at(-2)?.id ?? '';
    made.does({ command: 'undo', entry: change });
    const undo = made.entries.at(-1)?.id ?? '';
    expect(at(made, 'lead L1 connected')).toMatchObject({
      state: 're-opened',
      reason: 'lead L1 was set back by an undo on 2026-03-04 08:19, after it was proven.',
      evidence: [{ doubt: { entry: undo, part: 'lead', id: 'L1' } }],
    });
    // Proven of the lead as it was: that the change counts again makes it doubtful, and the first proof good.
    made.does(give({ how: 'seen', name: 'Cy' }, 'lead L1 connected'));
    expect(stateAt(made, 'lead L1 connected')).toBe('closed');
    made.does({ command: 'undo', entry: undo });
    expect(at(made, 'lead L1 connected').evidence.map(({ verdict }) => verdict)).toEqual(['proves', 'stale']);
    expect(stateAt(made, 'lead L1 connected')).toBe('closed');
  });

  test('when the evidence is undone, and is closed when that is undone', () => {
    const made = bench().does(give(seen, 'driver D1 polarity'));
    made.does({ command: 'undo', entry: made.entries.at(-1)?.id ?? '' });
    expect(stateAt(made, 'driver D1 polarity')).toBe('open');
    made.does({ command: 'undo', entry: made.entries.at(-1)?.id ?? '' });
    expect(stateAt(made, 'driver D1 polarity')).toBe('closed');
  });

  test('when its take is set aside, or taken back', () => {
    const made = bench().does(take('T1'), give({ how: 'take', take: 'T1' }, 'driver D1 polarity'));
    const recorded = made.entries.at(-2)?.id ?? '';
    made.does({ command: 'noteTake', take: 'T1', kept: false });
    expect(at(made, 'driver D1 polarity')).toMatchObject({ state: 're-opened', evidence: [{ verdict: 'stale' }] });
    made.does({ command: 'noteTake', take: 'T1', kept: true });
    expect(stateAt(made, 'driver D1 polarity')).toBe('closed');
    made.does({ command: 'undo', entry: recorded });
    expect(stateAt(made, 'driver D1 polarity')).toBe('re-opened');
  });

  test('when it is read again and does not read as it should', () => {
    const made = closed().does(give(measured(6.6, 'ohm'), 'load N1 coils'));
    expect(at(made, 'load N1 coils')).toMatchObject({ state: 're-opened' });
    expect(at(made, 'load N1 coils').reason).toContain('It reads 6.6 ohm');
  });

  test('when what a proof or a reading of the plan is about changes, and not before', () => {
    const made = bench().does(
      set('holdPoint', 'H1', { of: 'L1', proof: 'looked at' }),
      set('reading', 'M1', { of: 'L1', quantity: 'resistance', value: 3.5 }),
      changed('lead', 'L1', { colour: 'red' }),
    );
    expect([stateAt(made, 'point H1 proven'), stateAt(made, 'load N1 coils')]).toEqual(['closed', 'closed']);
    made.does(changed('lead', 'L1', { to: 'D2' }));
    expect([stateAt(made, 'point H1 proven'), stateAt(made, 'load N1 coils')]).toEqual(['re-opened', 're-opened']);
    made.does(set('holdPoint', 'H1', { of: 'L1', proof: 'looked at again' }));
    expect(stateAt(made, 'point H1 proven')).toBe('closed');
  });

  test('and new evidence closes it', () => {
    const made = closed().does(changed('lead', 'L1', { lengthM: 4 }), give(seen, 'lead L1 connected'));
    expect(at(made, 'lead L1 connected')).toMatchObject({
      state: 'closed',
      evidence: [{ verdict: 'stale' }, { verdict: 'proves' }],
    });
  });
});

test('hold points of a plan of more than 60 parts take less than 30 ms, and are the same each time', () => {
  const plan = planOf(templatePlan('seven-channel'));
  expect(Object.values(plan).reduce((sum, list) => sum + list.length, 0)).toBeGreaterThan(60);
  const first = holdPointsOfPlan(plan);
  let quickestMs = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 20; i++) {
    const began = performance.now();
    expect(holdPointsOfPlan(plan)).toEqual(first);
    quickestMs = Math.min(quickestMs, performance.now() - began);
  }
  expect(quickestMs).toBeLessThan(30);
});
