import { expect, test } from 'vitest';
import { planOf, proveRules } from '../../../test/plan/rule-cases.ts';
import { findingsOf } from './findings.ts';

const filter = (fHz: number, order = 4) => ({ family: 'linkwitz-riley', order, fHz });
const places = [
  { id: 'PL', side: 'left', row: 'front', position: 'door' },
  { id: 'PR', side: 'right', row: 'front', position: 'door' },
  { id: 'PT', side: 'left', row: 'front', position: 'pillar' },
  { id: 'PB', side: 'centre', row: 'boot', position: 'boot-floor' },
  { id: 'PQ', side: 'left', row: 'second', position: 'door' },
];
const amplifier = [{ id: 'A', channels: ['1', '2'].map((id) => ({ id })) }];

/** Two drivers, each on a channel of its own: D1 on C1 and D2 on C2. */
const two = (
  first: { driver?: object; channel?: object },
  second: { driver?: object; channel?: object },
  more: object = {},
) => ({
  place: places,
  amplifier,
  driver: [
    { id: 'D1', ...first.driver },
    { id: 'D2', ...second.driver },
  ],
  channel: [
    { id: 'C1', amplifier: 'A/1', ...first.channel },
    { id: 'C2', amplifier: 'A/2', ...second.channel },
  ],
  load: [
    { id: 'N1', amplifier: 'A/1', network: 'D1/1' },
    { id: 'N2', amplifier: 'A/2', network: 'D2/1' },
  ],
  ...more,
});

const crossing = (low: object, high: object) =>
  two(
    { driver: { kind: 'midbass', place: 'PL' }, channel: { polarity: 1, ...low } },
    { driver: { kind: 'tweeter', place: 'PT' }, channel: { polarity: 1, ...high } },
  );
const belowMidbass = (lowHz: number, highPass: object | undefined) =>
  two(
    { driver: { kind: 'sub', place: 'PB' }, channel: { lowPass: filter(lowHz) } },
    { driver: { kind: 'midbass', place: 'PL' }, channel: highPass === undefined ? {} : { highPass } },
  );
const pair = (left: object, right: object, more: object = {}) => {
  const set = { highPass: filter(80), lowPass: null, polarity: 1 };
  return two(
    { driver: { kind: 'midbass', place: 'PL', model: 'W' }, channel: { ...set, ...left } },
    { driver: { kind: 'midbass', place: 'PR', model: 'W' }, channel: { ...set, ...right } },
    more,
  );
};
const seat = [
  {
    id: 'S',
    distances: [
      { place: 'PL', distanceM: 0.9 },
      { place: 'PR', distanceM: 1.2 },
    ],
  },
];
const passive = (more: object, channel: object) => ({
  channel: [{ id: 'C1', amplifier: 'A/1', ...channel }],
  load: [{ id: 'N1', amplifier: 'A/1', network: 'D1/1', passive: { fHz: 3000, ...more } }],
  driver: [{ id: 'D1' }],
});
const input = (source: object, more: object) => ({
  source: [{ id: 'H', outputs: [{ id: 'l' }], ...source }],
  processor: [{ id: 'DSP', inputs: [{ id: 'in', from: 'H/l', ...more }] }],
});
const signal = (more: object) => ({ lead: [{ id: 'L1', kind: 'signal', ...more }] });
const oneDriver = (driver: object, channel: object) => ({
  driver: [{ id: 'D1', ...driver }],
  load: [{ id: 'N1', amplifier: 'A/1', network: 'D1/1' }],
  channel: [{ id: 'C1', amplifier: 'A/1', ...channel }],
});

proveRules([
  {
    rule: 'X-01',
    severity: 'fix',
    says: 'Nothing covers 1990 to 2500 Hz',
    wrong: crossing({ lowPass: filter(1990) }, { highPass: filter(2500) }),
    sound: crossing({ lowPass: filter(2000) }, { highPass: filter(2500) }),
    unknown: crossing({}, { highPass: filter(2500) }),
  },
  {
    rule: 'X-02',
    severity: 'note',
    says: 'overlap from 2000 to 3010 Hz',
    wrong: crossing({ lowPass: filter(3010, 2) }, { highPass: filter(2000) }),
    sound: crossing({ lowPass: filter(3000, 2) }, { highPass: filter(2000) }),
    unknown: crossing({ lowPass: filter(3010, 2) }, {}),
  },
  {
    rule: 'X-03',
    severity: 'note',
    says: 'The sub plays to 97 Hz while the midbass starts at 80 Hz',
    wrong: belowMidbass(97, filter(80)),
    sound: belowMidbass(96, filter(80)),
    unknown: belowMidbass(96, undefined),
  },
  {
    rule: 'X-05',
    severity: 'fix',
    says: 'gain: left 0 dB, right 1.1 dB',
    wrong: pair({ gainDb: 0 }, { gainDb: 1.1 }),
    sound: pair({ gainDb: 0 }, { gainDb: 1 }),
    unknown: pair({ delayMs: 0 }, { delayMs: 0.5 }),
  },
  {
    rule: 'X-06',
    severity: 'fix',
    says: 'opposite polarity',
    wrong: pair({}, { polarity: -1 }),
    sound: pair({ polarity: -1 }, { polarity: -1 }),
    unknown: two(
      { driver: { kind: 'midbass', place: 'PL' }, channel: { polarity: 1 } },
      { driver: { kind: 'midbass', place: 'PQ' } },
    ),
  },
  {
    rule: 'X-07',
    severity: 'note',
    says: '12 dB slopes at 2500 Hz',
    wrong: crossing({ lowPass: filter(2500, 2) }, { highPass: filter(2500, 2) }),
    sound: crossing({ lowPass: filter(2500, 2) }, { highPass: filter(2500, 2), polarity: -1 }),
    unknown: crossing({ lowPass: filter(2500, 2) }, {}),
  },
  {
    rule: 'X-08',
    severity: 'fix',
    says: 'passive crossover (3000 Hz) behind an active one (2500 Hz)',
    wrong: passive({}, { highPass: filter(2500), lowPass: null }),
    sound: passive({}, { highPass: filter(80), lowPass: null }),
    unknown: passive({}, { highPass: filter(80) }),
  },
  {
    rule: 'X-09',
    severity: 'note',
    says: 'check the tweeter level setting',
    wrong: passive({ tweeterLevelChecked: false }, {}),
    sound: passive({ tweeterLevelChecked: true }, {}),
    unknown: passive({}, {}),
  },
  {
    rule: 'S-01',
    severity: 'fix',
    says: 'D1 has no processor channel',
    wrong: oneDriver({}, {}),
    sound: oneDriver({}, { output: 'DSP/1' }),
    unknown: { driver: [{ id: 'D1' }] },
  },
  {
    rule: 'S-02',
    severity: 'stop',
    says: 'processor output DSP/1 is used by channel C1 and channel C2',
    wrong: {
      channel: [
        { id: 'C1', output: 'DSP/1' },
        { id: 'C2', output: 'DSP/1' },
      ],
    },
    sound: {
      channel: [
        { id: 'C1', output: 'DSP/1' },
        { id: 'C2', output: 'DSP/2' },
      ],
    },
    unknown: { channel: [{ id: 'C1', output: 'DSP/1' }, { id: 'C2' }] },
  },
  {
    rule: 'S-03',
    severity: 'fix',
    says: 'C1 is not connected to anything: nothing is wired to A/1',
    wrong: { channel: [{ id: 'C1', amplifier: 'A/1' }] },
    sound: { channel: [{ id: 'C1', amplifier: 'A/1' }], load: [{ id: 'N1', amplifier: 'A/1' }] },
    unknown: { channel: [{ id: 'C1', amplifier: 'A/1' }], load: [{ id: 'N1' }] },
  },
  {
    rule: 'S-05',
    severity: 'fix',
    says: '8 V clean; the input takes 4 V: attenuate 6.02 dB',
    wrong: input({ cleanV: 8 }, { maxV: 4 }),
    sound: input({ cleanV: 4 }, { maxV: 4 }),
    unknown: input({ cleanV: 8 }, {}),
  },
  {
    rule: 'S-08',
    severity: 'note',
    says: '5.1 m long and unbalanced',
    wrong: signal({ balanced: false, lengthM: 5.1, besidePowerM: 0 }),
    sound: signal({ balanced: false, lengthM: 5, besidePowerM: 0.5 }),
    unknown: signal({ lengthM: 6 }),
  },
  {
    rule: 'S-09',
    severity: 'stop',
    says: 'H is speaker level (9 V)',
    wrong: input({ kind: 'speaker', cleanV: 9 }, { kind: 'line' }),
    sound: input({ kind: 'speaker', cleanV: 9 }, { kind: 'line', adaptor: 'differential' }),
    unknown: input({}, { kind: 'line' }),
  },
  {
    rule: 'S-12',
    severity: 'fix',
    says: '1 outputs for 2 active channels',
    wrong: { processor: [{ id: 'DSP', outputs: [{ id: '1' }] }], channel: [{ id: 'C1' }, { id: 'C2' }] },
    sound: { processor: [{ id: 'DSP', outputs: [{ id: '1' }] }], channel: [{ id: 'C1' }, { id: 'C2', spare: true }] },
    unknown: { processor: [{ id: 'DSP' }], channel: [{ id: 'C1' }] },
  },
  {
    rule: 'L-05',
    severity: 'fix',
    says: 'D1 and D2 differ and are in series',
    wrong: {
      driver: [
        { id: 'D1', model: 'X' },
        { id: 'D2', model: 'Y' },
      ],
      load: [{ id: 'N', network: { s: ['D1/1', 'D2/1'] } }],
    },
    sound: {
      driver: [
        { id: 'D1', model: 'X' },
        { id: 'D2', model: 'X' },
      ],
      load: [{ id: 'N', network: { s: ['D1/1', 'D2/1'] } }],
    },
    unknown: {
      driver: [{ id: 'D1', model: 'X' }, { id: 'D2' }],
      load: [{ id: 'N', network: { s: ['D1/1', 'D2/1'] } }],
    },
  },
  {
    rule: 'L-07',
    severity: 'stop',
    says: 'it has no bridge mode',
    wrong: {
      amplifier: [{ id: 'A', bridgeable: false, fullBridge: false }],
      load: [{ id: 'N', amplifier: 'A/1', bridgedWith: 'A/2' }],
    },
    sound: {
      amplifier: [{ id: 'A', bridgeable: true, fullBridge: false }],
      load: [{ id: 'N', amplifier: 'A/1', bridgedWith: 'A/2' }],
    },
    unknown: { amplifier: [{ id: 'A', fullBridge: false }], load: [{ id: 'N', amplifier: 'A/1', bridgedWith: 'A/2' }] },
  },
  {
    rule: 'L-08',
    severity: 'fix',
    says: 'Both coils of D must get the same signal; C1 and C2 differ',
    ...Object.fromEntries(
      Object.entries({ wrong: { gainDb: -3 }, sound: { gainDb: 0 }, unknown: null }).map(([key, second]) => [
        key,
        {
          driver: [{ id: 'D', coils: 2 }],
          load: [
            { id: 'N1', amplifier: 'A/1', network: 'D/1' },
            { id: 'N2', amplifier: 'A/2', network: 'D/2' },
          ],
          channel: [
            { id: 'C1', amplifier: 'A/1', highPass: null, lowPass: filter(80) },
            ...(second === null
              ? []
              : [{ id: 'C2', amplifier: 'A/2', highPass: null, lowPass: filter(80), ...second }]),
          ],
        },
      ]),
    ),
  } as never,
  {
    rule: 'L-10',
    severity: 'stop',
    says: 'L1 touches body metal: it reads 12 ohm',
    wrong: { lead: [{ id: 'L1', kind: 'speaker' }], reading: [{ id: 'M', of: 'L1', quantity: 'to-body', value: 12 }] },
    sound: {
      lead: [{ id: 'L1', kind: 'speaker' }],
      reading: [{ id: 'M', of: 'L1', quantity: 'to-body', value: 100_000 }],
    },
    unknown: { lead: [{ id: 'L1', kind: 'speaker' }] },
  },
  {
    rule: 'D-02',
    severity: 'stop',
    says: 'D1 has no high-pass',
    wrong: oneDriver({ kind: 'tweeter' }, { highPass: null }),
    sound: oneDriver({ kind: 'tweeter' }, { highPass: filter(2500) }),
    unknown: oneDriver({ kind: 'tweeter' }, {}),
  },
  {
    rule: 'B-04',
    severity: 'stop',
    says: 'P has a restraint unit',
    wrong: { place: [{ id: 'P', restraint: true }], driver: [{ id: 'D', place: 'P' }] },
    sound: { place: [{ id: 'P', restraint: false }], driver: [{ id: 'D', place: 'P' }] },
    unknown: { place: [{ id: 'P' }], driver: [{ id: 'D', place: 'P' }] },
  },
]);

test('delays that the distances explain are no difference', () => {
  // 0.3 m are 0.874 ms at 343.2 m/s.
  const differs = (delayMs: number) =>
    findingsOf(planOf(pair({ delayMs }, { delayMs: 0 }, { seat }))).findings.some(({ id }) => id === 'X-05');
  expect(differs(1.07)).toBe(false);
  expect(differs(1.09)).toBe(true);
});

test.each(['X-03', 'X-06', 'L-08'])('the change that %s offers clears it', (rule) => {
  const parts = { 'X-03': belowMidbass(97, filter(80)), 'X-06': pair({}, { polarity: -1 }) }[rule] ?? {
    driver: [{ id: 'D', coils: 2 }],
    load: [
      { id: 'N1', amplifier: 'A/1', network: 'D/1' },
      { id: 'N2', amplifier: 'A/2', network: 'D/2' },
    ],
    channel: [
      { id: 'C1', amplifier: 'A/1', highPass: null, lowPass: filter(80) },
      { id: 'C2', amplifier: 'A/2', highPass: null, lowPass: null },
    ],
  };
  const plan = planOf(parts);
  const found = findingsOf(plan).findings.find(({ id }) => id === rule);
  const mended = (found?.changes ?? []).map(({ value }) => value);
  const channel = plan.channel.map((known) => mended.find((value) => value?.id === known.id) ?? known);
  expect(mended).not.toEqual([]);
  expect(findingsOf({ ...plan, channel } as never).findings.some(({ id }) => id === rule)).toBe(false);
});

test('a gap is closed from below, as far up as the lower cone still spreads sound', () => {
  // An octave above c / (pi d) is 2738 Hz with 50 cm2 and 1698 Hz with 130 cm2.
  const changesWith = (sdCm2: number) => {
    const ways = two(
      { driver: { kind: 'midbass', place: 'PL', sdCm2 }, channel: { polarity: 1, lowPass: filter(1990) } },
      { driver: { kind: 'tweeter', place: 'PT' }, channel: { polarity: 1, highPass: filter(2500) } },
    );
    return findingsOf(planOf(ways)).findings.find(({ id }) => id === 'X-01')?.changes;
  };
  expect(changesWith(50)).toMatchObject([{ part: 'channel', id: 'C1', value: { lowPass: filter(2500) } }]);
  expect(changesWith(130)).toBeUndefined();
});
