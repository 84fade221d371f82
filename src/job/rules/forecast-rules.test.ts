import { describe, expect, test } from 'vitest';
import { planOf, proveRules } from '../../../test/plan/rule-cases.ts';
import { findingsOf } from './findings.ts';

// Drivers, boxes and figures of an independent calculation (test/vectors/boxes.json and drivers.json).
const midbass = {
  id: 'D',
  kind: 'midbass',
  coilOhm: 4,
  fsHz: 62,
  reOhm: 3.4,
  qms: 4.8,
  qes: 0.58,
  sdCm2: 137,
  vasL: 14.5,
  leMh: 0.35,
  xmaxMm: 4.5,
  thermalW: 80,
};
const sub = {
  id: 'D',
  kind: 'sub',
  coilOhm: 4,
  fsHz: 28,
  reOhm: 3.5,
  qms: 6.2,
  qes: 0.52,
  sdCm2: 490,
  mmsG: 175,
  leMh: 1.6,
  xmaxMm: 12,
  thermalW: 500,
  enclosure: 'BOX',
};
const edge = (fHz: number) => ({ family: 'linkwitz-riley', order: 4, fHz });
const played = (powerW: number, driver: object, channel: object, more: object = {}) => ({
  amplifier: [{ id: 'A', channels: [{ id: '1', ratings: [{ ohm: 4, powerW }], minimumOhm: 2 }] }],
  driver: [driver],
  load: [{ id: 'N', amplifier: 'A/1', network: 'D/1' }],
  channel: [{ id: 'C1', amplifier: 'A/1', highPass: null, lowPass: null, ...channel }],
  ...more,
});
// 16 W at 4 ohm clip at 8 V; sqrt(80 x 3.4) = 16.49 V is what heat allows: 6.28 dB more.
const clips = (powerW: number, driver: object = {}) =>
  played(powerW, { ...midbass, ...driver }, { highPass: edge(80) });

const boxed = (box: object, driver: object = sub) => ({
  driver: [driver],
  enclosure: [{ id: 'BOX', kind: 'sealed', ...box }],
});

// 35 L closed at 44.72 V: 103.02 dB at 30 Hz, ended by the stroke, and more at 50 and 80. A cabin of 3 m3 that leaks from
// 10 Hz and keeps 0.6 of its gain adds 0.6 x 10 log10(1 + (79.05 / 30)^4 / (1 + 1 / 9)) = 9.88 dB: 112.9 dB.
const asked = (targetLevelDb: number | undefined, vehicle: object = { cabinVolumeM3: 3 }) =>
  played(
    500,
    sub,
    { lowPass: edge(200) },
    {
      ...boxed({ netL: 35 }),
      vehicle: [{ id: 'vehicle', ...vehicle }],
      seat: [{ id: 'S', ...(targetLevelDb === undefined ? {} : { targetLevelDb }) }],
    },
  );

// 30 V on a driver in 45 L tuned to 33 Hz: 114.63 cm2 keep the air under 20 m/s, so 91.70 cm2 under 25 and 76.42 under 30;
// the most flows at 31.1 Hz.
const ported = (portAreaCm2: number | undefined) =>
  played(
    400,
    { ...sub, fsHz: 29, reOhm: 3.4, qms: 6.5, qes: 0.42, sdCm2: 330, mmsG: 120, leMh: 1, targetV: 30 },
    {},
    {
      enclosure: [
        { id: 'BOX', kind: 'vented', netL: 45, tuningHz: 33, ...(portAreaCm2 === undefined ? {} : { portAreaCm2 }) },
      ],
    },
  );

const sensitive = (high: object) => ({
  place: [
    { id: 'PL', side: 'left', row: 'front', position: 'door' },
    { id: 'PT', side: 'left', row: 'front', position: 'pillar' },
  ],
  driver: [
    { id: 'D1', kind: 'midbass', place: 'PL', coilOhm: 4, sensitivityDb: 87, sensitivityAt: '1W' },
    { id: 'D2', kind: 'tweeter', place: 'PT', coilOhm: 4, ...high },
  ],
  channel: ['1', '2'].map((n) => ({ id: `C${n}`, amplifier: `A/${n}` })),
  load: ['1', '2'].map((n) => ({ id: `N${n}`, amplifier: `A/${n}`, network: `D${n}/1` })),
});

proveRules([
  {
    rule: 'D-05',
    severity: 'note',
    says: 'A clips 6.28 dB before the ceiling of D (16 W for a 80 W driver)',
    wrong: clips(16),
    sound: clips(40, { kind: 'mid' }),
    unknown: clips(40),
  },
  {
    rule: 'D-08',
    severity: 'note',
    // 87 dB for 1 W at 4 ohm are 90.01 dB for 2.83 V.
    says: 'D2 is 8.09 dB louder per volt than D1',
    wrong: sensitive({ sensitivityDb: 98.1, sensitivityAt: '2.83V' }),
    sound: sensitive({ sensitivityDb: 98, sensitivityAt: '2.83V' }),
    unknown: sensitive({ sensitivityDb: 98.1 }),
  },
  {
    rule: 'D-10',
    severity: 'note',
    // 9.80665 / (2 pi 25)^2 = 0.3974 mm.
    says: 'Weight shifts the cone of D by 0.397 mm (5.03 % of its stroke)',
    wrong: { driver: [{ id: 'D', facing: 'down', fsHz: 25, xmaxMm: 7.9 }] },
    sound: { driver: [{ id: 'D', facing: 'down', fsHz: 25, xmaxMm: 8 }] },
    unknown: { driver: [{ id: 'D', fsHz: 25, xmaxMm: 7.9 }] },
  },
  {
    rule: 'D-11',
    severity: 'fix',
    says: 'D needs about 70.1 L (sealed); the planned 35 L give a Qtc of 0.802',
    wrong: boxed({ netL: 35, sheetNetL: 70.1 }),
    sound: boxed({ netL: 35, sheetNetL: 70 }),
    unknown: boxed({ sheetNetL: 70 }),
  },
  {
    rule: 'D-13',
    severity: 'note',
    says: 'Port air reaches 25.1 m/s at 31.1 Hz: use 92 cm2',
    wrong: ported(91.2),
    sound: ported(92),
    unknown: ported(undefined),
  },
  {
    rule: 'P-03',
    severity: 'note',
    says: 'Asked 115 dB at 30 Hz for S; forecast ceiling 113 dB, limited by the stroke of D',
    wrong: asked(115),
    sound: asked(112.8),
    unknown: asked(115, {}),
  },
]);

const found = (rule: string, parts: object) => findingsOf(planOf(parts)).findings.find(({ id }) => id === rule);

test('an amplifier that is strong enough for its driver is small where it ends what is asked for', () => {
  const plan = (targetLevelDb: number) => ({
    ...clips(40),
    vehicle: [{ id: 'vehicle', cabinVolumeM3: 3 }],
    seat: [{ id: 'S', targetLevelDb }],
  });
  // At the corner of its high-pass it gives about 98 dB.
  expect(found('D-05', plan(115))?.severity).toBe('note');
  expect(found('D-05', plan(95))).toBeUndefined();
});

test('air above 30 m/s is to be mended', () => {
  expect([found('D-13', ported(76.8))?.severity, found('D-13', ported(76))?.severity]).toEqual(['note', 'fix']);
});

test('two drivers in one box have half of it each', () => {
  const two = (netL: number) => ({
    driver: [sub, { ...sub, id: 'E' }],
    enclosure: [{ id: 'BOX', kind: 'sealed', netL, sheetNetL: 70 }],
  });
  expect(found('D-11', two(70))).toBeUndefined();
  expect(found('D-11', two(69))?.message).toContain('the planned 34.5 L');
});

test('a closed box without a figure of its sheet is held against one without a peak', () => {
  // Vas = 35 L x 1.7961 = 62.86 L and Qts 0.4798: 62.86 / ((0.7071 / 0.4798)^2 - 1) = 53.6 L; a quarter of it booms.
  expect(found('D-11', boxed({ netL: 13 }))?.values).toMatchObject({ wantedL: expect.closeTo(53.6, 1) });
  expect(found('D-11', boxed({ netL: 27 }))).toBeUndefined();
});

test('a sheet that asks for a box finds none in a shelf without one', () => {
  expect(found('D-11', boxed({ kind: 'infinite-baffle', sheetNetL: 30 }))?.message).toContain('it has no box');
});

describe('two alike drivers on one channel', () => {
  const pair = (network: object, powerW: number, ohm: number, second: object = {}) => ({
    ...played(powerW, midbass, { highPass: edge(80) }),
    amplifier: [{ id: 'A', channels: [{ id: '1', ratings: [{ ohm, powerW }], minimumOhm: 2 }] }],
    driver: [midbass, { ...midbass, id: 'E', ...second }],
    load: [{ id: 'N', amplifier: 'A/1', network }],
  });
  const small = 'A clips 6.28 dB before the ceiling of D (16 W for a 80 W driver)';

  test('in series have half the volts each', () => {
    // 32 W at 8 ohm clip at 16 V.
    expect(found('D-05', pair({ s: ['D/1', 'E/1'] }, 32, 8))?.message).toContain(small);
  });

  test('in parallel have the volts of the channel', () => {
    // 32 W at 2 ohm clip at 8 V.
    expect(found('D-05', pair({ p: ['D/1', 'E/1'] }, 32, 2))?.message).toContain(small);
  });

  test('that are not quite alike cannot be told', () => {
    const { findings, cannotTell } = findingsOf(planOf(pair({ s: ['D/1', 'E/1'] }, 32, 8, { qms: 4 })));
    expect(findings.map(({ id }) => id)).not.toContain('D-05');
    expect(cannotTell.find(({ id }) => id === 'D-05')?.needs).toBe('a channel of its own');
  });
});

test('the lead before a driver takes its share of the volts, stroke with them', () => {
  const lead = (lengthM: number) => ({
    ...played(36, { ...midbass, xmaxMm: 1 }, { highPass: edge(80) }),
    lead: [{ id: 'L', kind: 'speaker', from: 'A/1', areaMm2: 0.5, material: 'copper', lengthM }],
  });
  const volts = (lengthM: number) => Number(found('D-03', lead(lengthM))?.values.excursionV);
  // 20 m of 0.5 mm2, flexible, are 1.53 ohm before 3.4: at most 4.93 / 3.4 = 1.45 times the volts.
  expect(volts(20)).toBeGreaterThan(1.1 * volts(0));
  expect(volts(20)).toBeLessThan(1.451 * volts(0));
});

test('a body that the job knows has its usual cabin, until the plan says more', () => {
  const level = (body: string | undefined, vehicle: object) => {
    const { findings, cannotTell } = findingsOf(planOf(asked(150, vehicle)), undefined, { body });
    return (
      findings.find(({ id }) => id === 'P-03')?.values.ceilingDb ?? cannotTell.find(({ id }) => id === 'P-03')?.needs
    );
  };
  // 114.34 dB at 80 Hz, and of a hatchback of 2.5 m3 that leaks from 5 Hz and keeps 0.8 of its gain
  // 0.8 x 10 log10(1 + (86.59 / 80)^4 / (1 + 1 / 256)) = 2.99 dB; 30 and 50 Hz have more.
  expect(level('hatchback', {})).toBeCloseTo(114.341 + 2.994, 2);
  expect(level('hatchback', { cabinVolumeM3: 3, cabinLeakHz: 10, cabinFullness: 0.6 })).toBeCloseTo(112.901, 2);
  expect(level('roadster', {})).toBe('the volume of the cabin');
});
