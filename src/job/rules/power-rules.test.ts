import { expect, test } from 'vitest';
import { planOf, proveRules } from '../../../test/plan/rule-cases.ts';
import { findingsOf } from './findings.ts';

const battery = [{ id: 'BAT' }];
const joined = (more: object, fuses: object[]) => ({
  battery: [{ id: 'B1' }, { id: 'B2' }],
  run: [{ id: 'R9', from: 'B1', to: 'B2', ...more }],
  fuse: fuses.map((fuse, n) => ({ id: `F${n}`, run: 'R9', ...fuse })),
});
const mainRun = (fuse: object) => ({
  battery,
  run: [{ id: 'R1', from: 'BAT', lengthM: 5 }],
  fuse: [{ id: 'F1', run: 'R1', ...fuse }],
});
const turnOn = (more: object) => ({
  source: [{ id: 'H', turnsOn: ['A', 'B', 'DSP'], ...more }],
  amplifier: [
    { id: 'A', turnOnA: 0.05 },
    { id: 'B', turnOnA: 0.05 },
  ],
  processor: [{ id: 'DSP', turnOnA: 0.1 }],
});
const rests = (value: number, more = {}) => ({
  vehicle: [{ id: 'vehicle', systemVoltageV: 12, ...more }],
  battery,
  reading: [{ id: 'M1', of: 'BAT', quantity: 'resting-voltage', value }],
});
const onTruck = (more: object) => ({
  vehicle: [{ id: 'vehicle', systemVoltageV: 24 }],
  amplifier: [{ id: 'A', ...more }],
});

proveRules([
  {
    rule: 'E-02',
    severity: 'stop',
    says: '0.46 m of cable from battery plus has no fuse',
    wrong: mainRun({ atM: 0.46 }),
    sound: mainRun({ atM: 0.45 }),
    unknown: mainRun({}),
  },
  {
    rule: 'E-03',
    severity: 'stop',
    says: 'fuse at both ends',
    wrong: joined({ lengthM: 4 }, [{ atM: 0.3 }, { atM: 1 }]),
    sound: joined({ lengthM: 4 }, [{ atM: 0.3 }, { atM: 3.6 }]),
    unknown: joined({}, [{ atM: 0.3 }, { atM: 3.6 }]),
  },
  {
    rule: 'E-16',
    severity: 'fix',
    says: '59 % more resistance, 20.7 % less current',
    wrong: { run: [{ id: 'R1', material: 'copper-clad-aluminium-10' }] },
    sound: { run: [{ id: 'R1', material: 'copper' }] },
    unknown: { run: [{ id: 'R1' }] },
  },
  {
    rule: 'E-17',
    severity: 'stop',
    says: 'A is 12 V; this vehicle is 24 V',
    wrong: onTruck({ supplyV: 12 }),
    sound: onTruck({ supplyV: 24 }),
    unknown: onTruck({}),
  },
  {
    rule: 'E-18',
    severity: 'fix',
    says: '3 devices at 0.2 A; the source gives 0.3 A',
    wrong: turnOn({ turnOnLimitA: 0.3 }),
    sound: turnOn({ turnOnLimitA: 0.41 }),
    unknown: turnOn({}),
  },
  {
    rule: 'E-19',
    severity: 'fix',
    says: 'rests at 12.1 V',
    wrong: rests(12.1),
    sound: rests(12.2),
    unknown: { ...rests(12.1), reading: [] },
  },
  {
    rule: 'E-20',
    severity: 'stop',
    says: 'passes a fuel line and an airbag part',
    wrong: { run: [{ id: 'R1', near: ['fuel', 'airbag'] }] },
    sound: { run: [{ id: 'R1', near: [] }] },
    unknown: { run: [{ id: 'R1' }] },
  },
  {
    rule: 'P-01',
    severity: 'stop',
    says: 'B hides 1 unproven point: HP1',
    wrong: { cover: [{ id: 'B', closing: true }], holdPoint: [{ id: 'HP1', behind: ['B'] }] },
    sound: { cover: [{ id: 'B', closing: true }], holdPoint: [{ id: 'HP1', behind: ['B'], proof: '3.6 ohm at A1' }] },
    unknown: { cover: [{ id: 'B', closing: true }], holdPoint: [{ id: 'HP1' }] },
  },
]);

test('a fuse too far away does not excuse one that is not there at all', () => {
  const { findings } = findingsOf(planOf({ ...mainRun({ fitted: false }) }));
  expect(findings.find(({ id }) => id === 'E-02')?.message).toContain('without any fuse');
});

test('a relay clears an overloaded turn-on lead, as its change says', () => {
  const plan = planOf(turnOn({ turnOnLimitA: 0.3 }));
  const [finding] = findingsOf(plan).findings.filter(({ id }) => id === 'E-18');
  const value = finding.changes?.[0].value;
  expect(findingsOf({ ...plan, source: [value] as never }).findings.some(({ id }) => id === 'E-18')).toBe(false);
});

test('a cover that the job knows as fastened counts as closed', () => {
  const plan = planOf({ cover: [{ id: 'B' }], holdPoint: [{ id: 'HP1', behind: ['B'] }] });
  expect(findingsOf(plan).findings).toEqual([]);
  expect(findingsOf(plan, undefined, { coversClosed: ['B'] }).findings[0].id).toBe('P-01');
});

test('a closed cover hides what the plan opens by itself too, by what the cover says and by where a driver sits', () => {
  const plan = planOf({
    cover: [{ id: 'B', letter: 'C', hides: ['L1'] }, { id: 'E' }],
    lead: [{ id: 'L1' }],
    place: [{ id: 'P1', covers: ['E'] }],
    driver: [{ id: 'D1', place: 'P1' }],
  });
  const messages = (...coversClosed: string[]) =>
    findingsOf(plan, undefined, { coversClosed })
      .findings.filter(({ id }) => id === 'P-01')
      .map(({ message }) => message);
  expect(messages()).toEqual([]);
  expect(messages('C', 'E')).toEqual(['B hides 1 unproven point: Lead L1.', 'E hides 1 unproven point: D1 polarity.']);
});

test('a reading that no longer counts is not believed', () => {
  const plan = planOf(rests(12.1));
  expect(findingsOf(plan, undefined, { readingsStale: ['M1'] }).findings).toEqual([]);
});

test('what points nowhere, and power that goes round in a circle, is found', () => {
  const circle = {
    block: [{ id: 'K1' }, { id: 'K2' }],
    run: [
      { id: 'R1', from: 'K1', to: 'K2' },
      { id: 'R2', from: 'K2', to: 'K1' },
      { id: 'R3', from: 'K9', to: 'K1' },
    ],
  };
  const ids = findingsOf(planOf(circle)).findings.map(({ id, place }) => `${id} ${place}`);
  expect(ids).toEqual(expect.arrayContaining(['R-02 run R1', 'R-02 run R2', 'R-01 run R3']));
  expect(ids).not.toContain('R-02 run R3');
});
