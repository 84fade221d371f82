import { expect, test } from 'vitest';
import { planOf, proveRules } from '../../../test/plan/rule-cases.ts';
import { findingsOf } from './findings.ts';

const amplifier = (powerW: number, more: object = {}) => ({
  id: 'A',
  channels: [{ id: '1', ratings: [{ ohm: 4, powerW }], minimumOhm: 2 }],
  ...more,
});
const driven = (powerW: number, driver: object, more: object = {}) => ({
  amplifier: [amplifier(powerW, more)],
  driver: [{ id: 'D', coilOhm: 4, ...driver }],
  load: [{ id: 'N', amplifier: 'A/1', network: 'D/1' }],
});
const vented = (box: object, channel: object) => ({
  driver: [{ id: 'D', enclosure: 'BOX' }],
  enclosure: [{ id: 'BOX', kind: 'vented', ...box }],
  load: [{ id: 'N', amplifier: 'A/1', network: 'D/1' }],
  channel: [{ id: 'C1', amplifier: 'A/1', ...channel }],
});
// 100 W at 4 ohm clip at 20 V; 4 V less 6 dB of headroom leaves 2.005 V.
const outOf = (maxV: number | undefined, sensitivityMinV: number) => ({
  ...driven(100, {}, { sensitivityMinV, sensitivityMaxV: 8 }),
  processor: [{ id: 'DSP', headroomDb: 6, outputs: [{ id: '1', ...(maxV === undefined ? {} : { maxV }) }] }],
  channel: [{ id: 'C1', output: 'DSP/1', amplifier: 'A/1' }],
});
// 2 x 0.017241 x L / (0.9 x 1.5) = 25.54 mOhm a metre; 0.2 ohm is 5 % of 4 ohm: 7.83 m.
const lead = (lengthM: number | undefined, more: object = {}) => ({
  ...driven(50, {}),
  lead: [
    {
      id: 'L1',
      kind: 'speaker',
      from: 'A/1',
      areaMm2: 1.5,
      material: 'copper',
      ...(lengthM === undefined ? {} : { lengthM }),
      ...more,
    },
  ],
});
const read = (value: number | string, driver: object) => ({
  amplifier: [amplifier(50)],
  driver: [{ id: 'D', coils: 2, ...driver }],
  load: [{ id: 'N', amplifier: 'A/1', network: { p: ['D/1', 'D/2'] } }],
  lead: [{ id: 'L1', kind: 'speaker', from: 'A/1' }],
  reading: [{ id: 'M', of: 'L1', quantity: 'resistance', value }],
});
const coil = (driver: object, value?: number) => ({
  driver: [{ id: 'D', ...driver }],
  reading: value === undefined ? [] : [{ id: 'M', of: 'D', quantity: 'resistance', value }],
});

// A tweeter of 3.4 ohm, resonance 900 Hz, stroke 0.35 mm, at 12 V: an independent calculation puts the floor of a fourth-order
// Linkwitz-Riley at 977 Hz by stroke, so that 1.5 times the resonance, 1350 Hz, rules. 36 W at 4 ohm clip at 12 V.
const tweeterSheet = { reOhm: 3.4, fsHz: 900, qms: 2.2, qes: 1.1, sdCm2: 7.1, mmsG: 0.45, leMh: 0.03, thermalW: 25 };
const crossed = (fHz: number | undefined, driver: object = {}) => ({
  amplifier: [amplifier(36)],
  driver: [{ id: 'D', kind: 'tweeter', coilOhm: 4, xmaxMm: 0.35, ...tweeterSheet, ...driver }],
  load: [{ id: 'N', amplifier: 'A/1', network: 'D/1' }],
  channel: [
    {
      id: 'C1',
      amplifier: 'A/1',
      ...(fHz === undefined ? {} : { highPass: { family: 'linkwitz-riley', order: 4, fHz } }),
    },
  ],
});

/** The plan with its driver's sheet silent on one value. */
const without = (value: string, parts: ReturnType<typeof crossed>) => ({
  ...parts,
  driver: parts.driver.map((driver) => Object.fromEntries(Object.entries(driver).filter(([name]) => name !== value))),
});

proveRules([
  {
    rule: 'D-01',
    severity: 'stop',
    says: 'safe high-pass is 1350 Hz (24 dB/octave). Set to 1300 Hz.',
    wrong: crossed(1300),
    sound: crossed(1350),
    unknown: crossed(undefined),
  },
  {
    rule: 'D-03',
    severity: 'fix',
    says: 'runs out of stroke at',
    // Half the stroke and heat out of the way: the cone is what ends first.
    wrong: crossed(900, { xmaxMm: 0.17, thermalW: 400 }),
    sound: crossed(3000, { thermalW: 400 }),
    unknown: without('xmaxMm', crossed(3000)),
  },
  {
    rule: 'D-07',
    severity: 'note',
    // 1 / (1 / 2.2 + 1 / 1.1) = 0.733; 0.70 is 4.5 % away, 0.72 is 1.8 %.
    says: 'disagrees with itself: Qts.',
    wrong: crossed(3000, { qts: 0.7 }),
    sound: crossed(3000, { qts: 0.72 }),
    unknown: without('qms', crossed(3000)),
  },
  {
    rule: 'D-04',
    severity: 'fix',
    says: 'can give 91 W to D, a 30 W driver. Set its target to 11 V',
    wrong: driven(91, { thermalW: 30 }),
    sound: driven(90, { thermalW: 30 }),
    unknown: driven(91, {}),
  },
  {
    rule: 'D-06',
    severity: 'fix',
    says: 'D is made for low power; it is on 51 W',
    wrong: driven(51, { intendedUse: 'low-power', thermalW: 25 }),
    sound: driven(50, { intendedUse: 'low-power', thermalW: 25 }),
    unknown: driven(51, { thermalW: 25 }),
  },
  {
    rule: 'D-09',
    severity: 'fix',
    says: 'D reads 3.8 ohm; plan uses 3.4 ohm',
    wrong: coil({ reOhm: 3.4 }, 3.8),
    sound: coil({ reOhm: 3.4 }, 3.74),
    unknown: coil({ reOhm: 3.4 }),
  },
  {
    rule: 'D-12',
    severity: 'fix',
    says: 'Below 40 Hz the cone is unloaded: set a high-pass at 30 Hz',
    wrong: vented({ tuningHz: 40 }, { highPass: { family: 'butterworth', order: 4, fHz: 23.9 } }),
    sound: vented({ tuningHz: 40 }, { highPass: { family: 'butterworth', order: 4, fHz: 24 } }),
    unknown: vented({}, { highPass: null }),
  },
  {
    rule: 'S-04',
    severity: 'fix',
    says: 'DSP gives 2 V; A needs at least 2.1 V for full power: 0.403 dB short',
    wrong: outOf(4, 2.1),
    sound: outOf(4, 2),
    unknown: outOf(undefined, 2),
  },
  {
    rule: 'S-10',
    severity: 'fix',
    says: 'distorts above step 34; the reference is 35',
    wrong: { source: [{ id: 'H', referenceStep: 35, cleanStep: 34 }] },
    sound: { source: [{ id: 'H', referenceStep: 34, cleanStep: 34 }] },
    unknown: { source: [{ id: 'H', referenceStep: 35 }] },
  },
  {
    rule: 'S-11',
    severity: 'note',
    says: 'factory processing found (equalizer and delay)',
    wrong: { source: [{ id: 'H', factoryProcessing: ['equalizer', 'delay'] }] },
    sound: { source: [{ id: 'H', factoryProcessing: [] }] },
    unknown: { source: [{ id: 'H', kind: 'speaker' }] },
  },
  {
    rule: 'L-09',
    severity: 'stop',
    says: 'L1 reads 3.6 ohm; plan says 1.62 to 1.98. It looks like coil D/1 open',
    wrong: read(3.6, { reOhm: 3.6 }),
    sound: read(2, { reOhm: 3.6 }),
    unknown: read(3.6, { coilOhm: 4 }),
  },
  {
    rule: 'L-11',
    severity: 'note',
    says: 'L1: 0.202 ohm of cable on 4 ohm, 0.427 dB lost',
    wrong: lead(7.9),
    sound: lead(7.8),
    unknown: lead(undefined),
  },
]);

const found = (rule: string, parts: object) => findingsOf(planOf(parts)).findings.find(({ id }) => id === rule);

test('a limiter excuses an amplifier that could give too much', () => {
  expect(found('D-04', driven(91, { thermalW: 30 }, { limiter: true }))).toBeUndefined();
});

test('an open lead and a shorted one are told apart', () => {
  expect(found('L-09', read('open', { reOhm: 3.6 }))?.message).toContain('It looks like a break.');
  expect(found('L-09', read(0.1, { reOhm: 3.6 }))?.message).toContain('It looks like a short.');
});

test('other coils than were ordered are found before anybody measures', () => {
  expect(found('D-09', coil({ coilOhm: 2, orderedCoilOhm: 4 }))?.message).toContain('sheet says 2 ohm, ordered were 4');
});

test('a lead that takes more than a tenth of the load is to be mended', () => {
  expect(found('L-11', lead(16))?.severity).toBe('fix');
});

test('the high-pass that D-12 offers clears it', () => {
  const parts = vented({ tuningHz: 40 }, { highPass: null });
  const mended = { ...parts, channel: found('D-12', parts)?.changes?.map(({ value }) => value) };
  expect(found('D-12', mended)).toBeUndefined();
});
