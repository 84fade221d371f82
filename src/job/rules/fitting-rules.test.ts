import { expect, test } from 'vitest';
import { planOf, proveRules } from '../../../test/plan/rule-cases.ts';
import { findingsOf } from './findings.ts';

const down = (gapUnderConeMm: number | undefined) => ({
  driver: [
    {
      id: 'D',
      facing: 'down',
      coneDiameterMm: 205,
      xmechMm: 18,
      ...(gapUnderConeMm === undefined ? {} : { gapUnderConeMm }),
    },
  ],
});
// 68 mm, and a quarter of 18 mm with 10 mm for the vent: 82.5 mm.
const door = (glassTravelMm: number | undefined, driver: object = { ventDiameterMm: 18 }) => ({
  driver: [{ id: 'D', place: 'P', depthMm: 68, ...driver }],
  place: [{ id: 'P', position: 'door', depthMm: 120, ...(glassTravelMm === undefined ? {} : { glassTravelMm }) }],
});
const box = (massKg: number, more: object) => ({
  driver: [{ id: 'D', enclosure: 'BOX', massKg: 6.5 }],
  enclosure: [{ id: 'BOX', kind: 'sealed', massKg, ...more }],
});
const loud = (more: object) => ({ seat: [{ id: 'S', pushLevelDba: 100, ...more }] });
const used = (lowPassHz: number | undefined, driver: object = { coneDiameterMm: 130 }) => ({
  driver: [{ id: 'D', kind: 'midbass', ...driver }],
  load: [{ id: 'N', amplifier: 'A/1', network: 'D/1' }],
  channel: [
    {
      id: 'C1',
      amplifier: 'A/1',
      ...(lowPassHz === undefined ? {} : { lowPass: { family: 'butterworth', order: 2, fHz: lowPassHz } }),
    },
  ],
});
const doorOff = { id: 'T1', name: 'left door', covers: [{ cover: 'B', state: 'off' as const }] };

proveRules([
  {
    rule: 'B-01',
    severity: 'fix',
    // A quarter of 205 mm is 51.25 mm, and 18 + 10 mm is less.
    says: '51 mm of clearance under D; needs 52 mm',
    wrong: down(51),
    sound: down(52),
    unknown: down(undefined),
  },
  {
    rule: 'B-02',
    severity: 'stop',
    says: 'D needs 82.5 mm; P has 82 mm with the window down',
    wrong: door(38),
    sound: door(37.5),
    unknown: door(undefined),
  },
  {
    rule: 'B-03',
    severity: 'stop',
    // 15.5 kg x 20 x 9.80665.
    says: 'BOX (15.5 kg) needs 3040 N of holding forward; it has 1 fixing in structure',
    wrong: box(9, { structuralFixings: 1 }),
    sound: box(8.5, { structuralFixings: 1 }),
    unknown: box(9, {}),
  },
  {
    rule: 'P-02',
    severity: 'note',
    says: 'Take left door was recorded with B off; planned is fastened',
    wrong: { cover: [{ id: 'B', duringTakes: 'fastened' }] },
    sound: { cover: [{ id: 'B', duringTakes: 'off' }] },
    unknown: { cover: [{ id: 'B' }] },
    circumstances: { takes: [doorOff] },
  },
  {
    rule: 'P-04',
    severity: 'note',
    // 100 dBA may last 15 minutes.
    says: "uses 53.3 % of a day's noise dose for S (8 minutes at 100 dBA)",
    wrong: loud({ pushMinutes: 8 }),
    sound: loud({ pushMinutes: 7.5 }),
    unknown: loud({}),
  },
  {
    rule: 'X-04',
    severity: 'note',
    // 2 x 343.2 / (pi x 0.13) = 1680.7 Hz.
    says: 'D beams or breaks up above 1680 Hz and is used to 1690 Hz',
    wrong: used(1690),
    sound: used(1680),
    unknown: used(1690, {}),
  },
]);

const found = (rule: string, parts: object) => findingsOf(planOf(parts)).findings.find(({ id }) => id === rule);

test('a cone that can strike stops', () => {
  expect([found('B-01', down(18))?.severity, found('B-01', down(18.1))?.severity]).toEqual(['stop', 'fix']);
});

test('a driver that is too deep without its vent and with the glass up needs no more to be told', () => {
  expect(found('B-02', { ...door(undefined, { depthMm: 121 }) })?.severity).toBe('stop');
});

test('a light box that hangs in trim alone is not held', () => {
  expect(found('B-03', box(2, { structuralFixings: 0 }))?.message).toContain('it has no fixing in structure');
  expect(found('B-03', box(60, { structuralFixings: 2 }))).toBeUndefined();
});

test("more than a day's noise stops, and what was heard before counts", () => {
  expect(found('P-04', loud({ pushMinutes: 15.1 }))?.severity).toBe('stop');
  expect(found('P-04', loud({ pushMinutes: 8, heardBeforePct: 60 }))?.severity).toBe('stop');
  expect(found('P-04', loud({ pushMinutes: 1, heardBeforePct: 60 }))?.changes).toBeUndefined();
});

test('a cone that breaks up sooner than it beams is crossed there', () => {
  expect(found('X-04', used(1600, { coneDiameterMm: 130, breakupHz: 1500 }))?.values.beamsAboveHz).toBe(1500);
});

test('a cover that nobody touched was fastened', () => {
  const plan = planOf({
    cover: [
      { id: 'B', duringTakes: 'fastened' },
      { id: 'C', duringTakes: 'fastened' },
    ],
  });
  const { findings } = findingsOf(plan, undefined, { takes: [doorOff] });
  expect(findings.map(({ place }) => place)).toEqual(['take T1, cover B']);
});
