import { expect, test } from 'vitest';
import { planOf, proveRules } from '../../../test/plan/rule-cases.ts';
import { findingsOf } from './findings.ts';

// A class D amplifier of 500 W into 4 ohm at 14.4 V and efficiency 0.8, idle 1 A: 500 / 11.52 + 1 = 44.40 A at full sine,
// 1 + 43.40 x 0.2 = 9.681 A in music.
const amplifier = {
  id: 'A',
  class: 'D',
  efficiency: 0.8,
  idleA: 1,
  channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 500 }], minimumOhm: 4 }],
};
const played = (driver: object = {}, network: object | string = 'D/1') => ({
  driver: [{ id: 'D', coilOhm: 4, ...driver }],
  load: [{ id: 'N', amplifier: 'A/1', network }],
});
const powered = (run: object, more: object = {}) => ({
  battery: [{ id: 'BAT' }],
  amplifier: [amplifier],
  run: [{ id: 'R1', from: 'BAT', to: 'A', material: 'copper', sizeFactor: 1, ...run }],
  ground: [{ id: 'G', of: 'A', areaMm2: 16, material: 'copper', lengthM: 0.5 }],
  ...played(),
  ...more,
});
const alternator = (more: object) => ({ ...powered({}), vehicle: [{ id: 'vehicle', ...more }] });
// 17 x 10^0.65 x sqrt(55 / 65) = 69.85 A at 50 C in the open.
const tenSquare = { areaMm2: 10, material: 'copper', sizeFactor: 1 };
const branch = (upstreamA: number, run: object) => ({
  battery: [{ id: 'BAT' }],
  block: [{ id: 'K' }],
  run: [
    { id: 'R1', from: 'BAT', to: 'K', allowedA: 200 },
    { id: 'R2', from: 'K', to: 'A', ...run },
  ],
  fuse: [{ id: 'F1', run: 'R1', atM: 0.2, ratedA: upstreamA }],
  amplifier: [amplifier],
});
const sides = (leftOhm: number, right: object) => ({
  place: ['left', 'right'].map((side) => ({ id: side, side, row: 'front', position: 'door' })),
  driver: [
    { id: 'D1', kind: 'midbass', place: 'left', coilOhm: leftOhm },
    { id: 'D2', kind: 'midbass', place: 'right', ...right },
  ],
  load: ['1', '2'].map((n) => ({ id: `N${n}`, amplifier: `A/${n}`, network: `D${n}/1` })),
  channel: ['1', '2'].map((n) => ({ id: `C${n}`, amplifier: `A/${n}` })),
});
const grounded = (value: number, more: object) => ({
  ground: [{ id: 'G', of: 'A' }],
  reading: [{ id: 'M', of: 'G', quantity: 'ground-drop', value, ...more }],
});

proveRules([
  {
    rule: 'E-01',
    severity: 'stop',
    says: 'Fuse 70 A is larger than the cable R1 (10 mm2 copper) it protects (69.9 A allowed). Fit 60 A',
    wrong: { run: [{ id: 'R1', ...tenSquare }], fuse: [{ id: 'F1', run: 'R1', ratedA: 70, family: 'strip-30' }] },
    sound: { run: [{ id: 'R1', ...tenSquare }], fuse: [{ id: 'F1', run: 'R1', ratedA: 69.8 }] },
    unknown: { run: [{ id: 'R1', areaMm2: 10 }], fuse: [{ id: 'F1', run: 'R1', ratedA: 70 }] },
  },
  {
    rule: 'E-04',
    severity: 'stop',
    says: 'R2 (10 mm2 copper) may carry 69.9 A but is protected by 70 A only',
    wrong: branch(70, tenSquare),
    sound: branch(69, tenSquare),
    unknown: branch(70, {}),
  },
  {
    rule: 'E-05',
    severity: 'stop',
    says: '9.68 A expected needs a fuse of at least 12.1 A; R1 allows 14.9 A',
    wrong: powered({ allowedA: 14.9 }),
    sound: powered({ allowedA: 15 }),
    unknown: powered({ allowedA: 15 }, { driver: [{ id: 'D' }] }),
  },
  {
    rule: 'E-06',
    severity: 'fix',
    says: 'Fuse 9 A will open in use (9.68 A expected)',
    wrong: powered({}, { fuse: [{ id: 'F1', run: 'R1', ratedA: 9 }] }),
    sound: powered({}, { fuse: [{ id: 'F1', run: 'R1', ratedA: 10 }] }),
    unknown: powered({}, { fuse: [{ id: 'F1', run: 'R1' }] }),
  },
  {
    // The maker's own fuses are what a fuse of its run is measured by: 2 x 20 A, with no more to spare.
    rule: 'E-05',
    severity: 'stop',
    says: 'The maker of A fuses it at 40 A; R1 allows 39 A, and no fuse fits both. Choose 6 mm2 copper.',
    wrong: powered({ allowedA: 39 }, { amplifier: [{ ...amplifier, ownFusesA: [20, 20] }] }),
    sound: powered({ allowedA: 40 }, { amplifier: [{ ...amplifier, ownFusesA: [20, 20] }] }),
    unknown: powered({}, { amplifier: [{ ...amplifier, ownFusesA: [20, 20] }] }),
  },
  {
    rule: 'E-06',
    severity: 'note',
    says: 'Fuse 30 A is smaller than the 40 A that the maker of A put into it',
    wrong: powered(
      { allowedA: 45 },
      { amplifier: [{ ...amplifier, ownFusesA: [20, 20] }], fuse: [{ id: 'F1', run: 'R1', ratedA: 30 }] },
    ),
    sound: powered(
      { allowedA: 45 },
      { amplifier: [{ ...amplifier, ownFusesA: [20, 20] }], fuse: [{ id: 'F1', run: 'R1', ratedA: 40 }] },
    ),
    unknown: powered({}, { amplifier: [{ ...amplifier, ownFusesA: [20, 20] }], fuse: [{ id: 'F1', run: 'R1' }] }),
  },
  {
    // 0.017241 x 7.2 / 16 + 0.017241 x 0.5 / (0.9 x 16) + 0.003 = 11.357 mOhm, at 44.40 A.
    rule: 'E-08',
    severity: 'note',
    says: '0.504 V is lost between battery and A at full sine (3.5 %, 0.31 dB of clip level)',
    wrong: powered({ areaMm2: 16, lengthM: 7.2 }),
    sound: powered({ areaMm2: 16, lengthM: 7.1 }),
    unknown: powered({ areaMm2: 16 }),
  },
  {
    rule: 'E-09',
    severity: 'stop',
    says: 'A would see 13.9 V and shut down',
    wrong: powered({ areaMm2: 16, lengthM: 7.2 }, { amplifier: [{ ...amplifier, supplyMinV: 13.9 }] }),
    sound: powered({ areaMm2: 16, lengthM: 7.2 }, { amplifier: [{ ...amplifier, supplyMinV: 13.89 }] }),
    unknown: powered({ areaMm2: 16 }, { amplifier: [{ ...amplifier, supplyMinV: 13.9 }] }),
  },
  {
    rule: 'E-11',
    severity: 'fix',
    says: 'Ground lead of A is 16 mm2 x 0.5 m; positive is 25 mm2',
    wrong: powered({ areaMm2: 25 }),
    sound: powered({ areaMm2: 16 }),
    unknown: powered({}),
  },
  {
    rule: 'E-13',
    severity: 'fix',
    says: 'drops 0.25 V at 40 A (6.25 mOhm)',
    wrong: grounded(0.25, { currentA: 40 }),
    sound: grounded(0.2, { currentA: 40 }),
    unknown: grounded(0.25, {}),
  },
  {
    rule: 'E-14',
    severity: 'fix',
    says: 'At idle the alternator is short by 0.181 A',
    wrong: alternator({ alternatorA: 89 }),
    sound: alternator({ alternatorA: 90 }),
    unknown: alternator({}),
  },
  {
    rule: 'E-15',
    severity: 'note',
    says: 'claims 500 W but its own fuses allow about 415 W',
    wrong: { amplifier: [{ ...amplifier, ownFusesA: [36] }] },
    sound: { amplifier: [{ ...amplifier, ownFusesA: [37] }] },
    unknown: { amplifier: [amplifier] },
  },
  {
    rule: 'E-21',
    severity: 'stop',
    says: 'R1 has a fuse in it and has not been checked',
    wrong: { run: [{ id: 'R1', shortTested: false }], fuse: [{ id: 'F', run: 'R1', fitted: true }] },
    sound: { run: [{ id: 'R1', shortTested: true }], fuse: [{ id: 'F', run: 'R1', fitted: true }] },
    unknown: { run: [{ id: 'R1' }], fuse: [{ id: 'F', run: 'R1', fitted: true }] },
  },
  {
    rule: 'L-01',
    severity: 'stop',
    says: 'A/1: load 2 ohm is below the minimum 4 ohm. Use all coils in series: 8 ohm',
    wrong: { amplifier: [amplifier], ...played({ coils: 2 }, { p: ['D/1', 'D/2'] }) },
    sound: { amplifier: [amplifier], ...played() },
    unknown: { amplifier: [amplifier], driver: [{ id: 'D' }], load: played().load },
  },
  {
    rule: 'L-03',
    severity: 'note',
    says: 'A/1 gives only 247 W into 8.1 ohm (500 W at 4)',
    wrong: { amplifier: [amplifier], ...played({ coilOhm: 8.1 }) },
    sound: { amplifier: [amplifier], ...played({ coilOhm: 8 }) },
    unknown: { amplifier: [{ id: 'A' }], ...played() },
  },
  {
    rule: 'L-04',
    severity: 'stop',
    says: 'share power 66.7 % : 16.7 %',
    wrong: played({ coils: 3 }, { s: ['D/1', { p: ['D/2', 'D/3'] }] }),
    sound: played({ coils: 3 }, { p: ['D/1', 'D/2', 'D/3'] }),
    unknown: { driver: [{ id: 'D', coils: 2 }], load: [{ id: 'N', network: { p: ['D/1', 'D/2'] } }] },
  },
  {
    rule: 'L-06',
    severity: 'fix',
    says: 'Left sees 4 ohm, right 4.21 ohm',
    wrong: sides(4, { coilOhm: 4.21 }),
    sound: sides(4, { coilOhm: 4.2 }),
    unknown: sides(4, {}),
  },
]);

const severityOf = (rule: string, parts: object) =>
  findingsOf(planOf(parts)).findings.find(({ id }) => id === rule)?.severity;

test('the drop rises from a note to a stop with the length', () => {
  // 44.40 A x (0.017241 L / 16 + 3.599 mOhm): 0.7 V at 11.3 m, 1.2 V at 21.7 m.
  const drop = (lengthM: number) => severityOf('E-08', powered({ areaMm2: 16, lengthM }));
  expect([drop(11), drop(12), drop(21), drop(22)]).toEqual(['note', 'fix', 'fix', 'stop']);
});

test('the cable that loses most is offered in the smallest size that is enough, its ground lead with it', () => {
  // 44.40 A x (0.017241 x 7.2 / 25 + 0.017241 x 0.5 / (0.9 x 25) + 0.003) = 0.371 V.
  const drop = (lengthM: number) =>
    findingsOf(planOf(powered({ areaMm2: 16, lengthM }))).findings.find(({ id }) => id === 'E-08');
  expect(drop(7.2)?.message).toContain('With R1 of 25 mm2 it would be 0.371 V.');
  expect(drop(7.2)?.changes?.map(({ part, value }) => [part, (value as { areaMm2: number }).areaMm2])).toEqual([
    ['run', 25],
    ['ground', 25],
  ]);
  // 44.40 A x (0.017241 x 100 / 120 + 0.003) is 0.77 V: no size sold is enough.
  expect(drop(100)?.changes).toBeUndefined();
});

test('a thin ground lead is offered in the size of the positive one, unless it is too long as well', () => {
  const ground = (lengthM: number) =>
    findingsOf(
      planOf(powered({ areaMm2: 25 }, { ground: [{ id: 'G1', of: 'A', areaMm2: 16, material: 'copper', lengthM }] })),
    ).findings.find(({ id }) => id === 'E-11');
  expect(ground(0.5)?.changes).toMatchObject([{ part: 'ground', id: 'G1', value: { areaMm2: 25, lengthM: 0.5 } }]);
  expect(ground(0.6)?.changes).toBeUndefined();
});

test('an alternator that is short on the road too stops', () => {
  expect(severityOf('E-14', alternator({ alternatorA: 44 }))).toBe('stop');
});

test('coils that share nearly evenly are only noted', () => {
  const unlike = {
    driver: [
      { id: 'D', coilOhm: 4 },
      { id: 'E', coilOhm: 4.5 },
    ],
    load: [{ id: 'N', network: { p: ['D/1', 'E/1'] } }],
  };
  expect(severityOf('L-04', unlike)).toBe('note');
});

test('a bridged pair takes twice the load of one channel', () => {
  const bridged = (coilOhm: number) => {
    const { load, driver } = played({ coilOhm });
    return severityOf('L-01', { amplifier: [amplifier], driver, load: [{ ...load[0], bridgedWith: 'A/2' }] });
  };
  expect([bridged(7.9), bridged(8)]).toEqual(['stop', undefined]);
});

test.each([
  ['E-01', { run: [{ id: 'R1', ...tenSquare }], fuse: [{ id: 'F1', run: 'R1', ratedA: 70 }] }, 'fuse'],
  ['L-01', { amplifier: [amplifier], ...played({ coils: 2 }, { p: ['D/1', 'D/2'] }) }, 'load'],
] as const)('the change that %s offers clears it', (rule, parts, list) => {
  const plan = planOf(parts);
  const found = findingsOf(plan).findings.find(({ id }) => id === rule);
  expect(found?.changes).toHaveLength(1);
  const mended = planOf({ ...parts, [list]: found?.changes?.map(({ value }) => value) });
  expect(findingsOf(mended).findings.some(({ id }) => id === rule)).toBe(false);
});
