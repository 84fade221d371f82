import { expect, test } from 'vitest';
import { planOf, proveRules } from '../../../test/plan/rule-cases.ts';
import { findingsOf } from './findings.ts';

// 500 W into 4 ohm at efficiency 0.8 take 625 W; at 14.4 V with 1 A idle 44.40 A.
const amplifier = {
  id: 'A',
  class: 'D',
  efficiency: 0.8,
  idleA: 1,
  channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 500 }], minimumOhm: 4 }],
};
const powered = (amp: object, run: object, more: object = {}) => ({
  battery: [{ id: 'BAT' }],
  amplifier: [{ ...amplifier, ...amp }],
  run: [{ id: 'R1', from: 'BAT', to: 'A', material: 'copper', areaMm2: 16, sizeFactor: 1, lengthM: 5, ...run }],
  ground: [{ id: 'G', of: 'A', areaMm2: 16, material: 'copper', lengthM: 0.5 }],
  driver: [{ id: 'D', coilOhm: 4 }],
  load: [{ id: 'N', amplifier: 'A/1', network: 'D/1' }],
  ...more,
});
const fused = (ratedA: number, amp: object = { fullTonePlanned: true }) =>
  powered(amp, {}, { fuse: [{ id: 'F1', run: 'R1', ratedA }] });
// The loop is 1.07756 mOhm a metre, 0.5987 mOhm of ground lead and 3 mOhm of joints. Half of 14.4 V is the most that
// matched resistance can take: 14.4^2 / (4 x 625 W) = 82.94 mOhm, at 73.6 m.
const long = (lengthM: number, amp: object = { regulated: true }) => powered(amp, { lengthM });
const grounded = (amp: object, more: object = {}) => ({
  processor: [{ id: 'DSP', groundAt: 'boot floor', outputs: [{ id: '1', balanced: false }] }],
  amplifier: [{ id: 'A' }],
  ground: [{ id: 'G', of: 'A', point: 'seat rail bolt', ...amp }],
  channel: [{ id: 'C1', output: 'DSP/1', amplifier: 'A/1', ...more }],
});
const hot = (amp: object, driver: object = {}) => ({
  amplifier: [{ ...amplifier, ...amp }],
  driver: [{ id: 'D', coilOhm: 4, ...driver }],
  load: [{ id: 'N', amplifier: 'A/1', network: 'D/1', duty: 0.33 }],
});

// 100 W at 4 ohm clip at 20 V; 4 V less 6 dB of headroom leave 2.005 V.
const chain = (amp: object, driver: object, more: object = {}) => ({
  processor: [{ id: 'DSP', headroomDb: 6, noiseUv: 25, outputs: [{ id: '1', maxV: 4 }] }],
  amplifier: [
    {
      id: 'A',
      channels: [{ id: '1', ratings: [{ ohm: 4, powerW: 100 }], minimumOhm: 2 }],
      sensitivityMinV: 0.2,
      inputNoiseUv: 12,
      ...amp,
    },
  ],
  driver: [{ id: 'D', coilOhm: 4, place: 'P', ...driver }],
  load: [{ id: 'N', amplifier: 'A/1', network: 'D/1' }],
  channel: [{ id: 'C1', output: 'DSP/1', amplifier: 'A/1' }],
  place: [{ id: 'P' }],
  seat: [{ id: 'S', distances: [{ place: 'P', distanceM: 0.8 }] }],
  ...more,
});
// 20 V over 1.0024 V is a gain of 26 dB: hypot(25, 12) uV become 553 uV, 18.8 dB at 0.8 m from a driver of 91 dB.
const hissing = (sensitivityDb: number, more: object = {}) =>
  chain({ sensitivityMaxV: 1.0024 }, { sensitivityDb, sensitivityAt: '2.83V' }, more);

proveRules([
  {
    rule: 'E-07',
    severity: 'note',
    says: 'Full tone on A draws 44.4 A; the 32 A fuse may open',
    wrong: fused(32),
    sound: fused(33),
    unknown: fused(32, {}),
  },
  {
    rule: 'E-10',
    severity: 'stop',
    says: 'The supply cannot feed the 625 W of A through 83.3 mOhm',
    wrong: long(74),
    sound: long(73),
    unknown: long(74, {}),
  },
  {
    rule: 'E-12',
    severity: 'note',
    says: 'Signal grounds are at 2 places, up to 1.1 m apart',
    wrong: grounded({ fromProcessorM: 1.1 }),
    sound: grounded({ fromProcessorM: 1 }),
    unknown: grounded({}),
  },
  {
    rule: 'L-02',
    severity: 'fix',
    says: 'A/1 runs at its lowest load in heat (4 ohm, at least 4, 41 C)',
    wrong: hot({ ambientC: 41 }),
    sound: hot({ ambientC: 40 }),
    unknown: hot({}),
  },
  {
    rule: 'S-06',
    severity: 'note',
    // 20 log10(2.005 / 0.5) = 12.06 dB.
    says: 'C1 throws 12.1 dB away digitally',
    wrong: chain({ sensitivityMaxV: 0.5 }, {}),
    sound: chain({ sensitivityMaxV: 0.51 }, {}),
    unknown: chain({}, {}),
  },
  {
    rule: 'S-07',
    severity: 'note',
    says: 'Hiss at the ear 20.8 dB from D at 0.8 m',
    wrong: hissing(93),
    sound: hissing(91),
    unknown: hissing(93, { seat: [] }),
  },
]);

const found = (rule: string, parts: object) => findingsOf(planOf(parts)).findings.find(({ id }) => id === rule);

test('hiss above 30 dB is to be mended', () => {
  expect([found('S-07', hissing(102))?.severity, found('S-07', hissing(103))?.severity]).toEqual(['note', 'fix']);
});

test('a load with room to spare bears the heat', () => {
  expect(found('L-02', hot({ ambientC: 60 }, { coilOhm: 4.4 }))).toBeUndefined();
});

test('an amplifier whose rails follow the battery does not collapse', () => {
  expect(found('E-10', long(99, { regulated: false }))).toBeUndefined();
});

test('a balanced lead makes two grounds harmless, and so does an amplifier that listens to the difference', () => {
  const apart = { fromProcessorM: 3 };
  expect(found('E-12', grounded(apart, { balancedInput: true }))).toBeUndefined();
  const lead = [{ id: 'L1', kind: 'signal', from: 'DSP/1', to: 'A/1', balanced: true }];
  expect(found('E-12', { ...grounded(apart), lead })).toBeUndefined();
});

test('an amplifier without a sheet is less efficient at a low load', () => {
  // Class D: 0.80, and 0.76 at half of its highest load: 500 W / (0.76 x 14.4) + 1.25 A = 46.94 A; the fuse holds 46.58.
  const classD = (coilOhm: number) => ({
    ...fused(34.5),
    amplifier: [
      {
        id: 'A',
        class: 'D',
        fullTonePlanned: true,
        channels: [
          {
            id: '1',
            ratings: [
              { ohm: 4, powerW: 500 },
              { ohm: 2, powerW: 500 },
            ],
          },
        ],
      },
    ],
    driver: [{ id: 'D', coilOhm }],
  });
  expect(found('E-07', classD(2))?.values.sineA).toBeCloseTo(46.94, 2);
  expect(found('E-07', classD(4))).toBeUndefined();
});
