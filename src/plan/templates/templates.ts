// Plans to start from: the usual cars, with parts of the shelf in their places.
import type { Plan } from '../plan.ts';
import { type CarPlan, type LanePlan, planFromLanes } from './lane-plan.ts';

type Lane = Omit<LanePlan, 'side' | 'cover' | 'amplifier'> & { covers: [string, string] };

/** A left and a right lane. Channels count on from `first` in steps of one. */
function pair({ covers, ...lane }: Lane, [left, right]: [string, string]): LanePlan[] {
  return [
    { ...lane, key: `${lane.key}, left`, side: 'left', cover: covers[0], amplifier: left },
    { ...lane, key: `${lane.key}, right`, side: 'right', cover: covers[1], amplifier: right },
  ];
}

const tweeters = (highPassHz: number): Lane => ({
  key: 'Pillar',
  model: 'Ottery T25',
  row: 'front',
  position: 'pillar',
  covers: ['pillar-left', 'pillar-right'],
  highPassHz,
  lowPassHz: null,
});
const mids = (lowPassHz: number): Lane => ({
  key: 'Kick panel',
  model: 'Ottery C100',
  row: 'front',
  position: 'kick-panel',
  covers: ['kick-left', 'kick-right'],
  highPassHz: 300,
  lowPassHz,
});
const doors = (lowPassHz: number): Lane => ({
  key: 'Door',
  model: 'Ottery W165',
  row: 'front',
  position: 'door',
  covers: ['door-left', 'door-right'],
  highPassHz: 80,
  lowPassHz,
});
const rears: Lane = {
  key: 'Rear door',
  model: 'Marrick F130',
  row: 'second',
  position: 'door',
  covers: ['rear-door-left', 'rear-door-right'],
  highPassHz: 180,
  lowPassHz: null,
};
const sub = (key: string, amplifier: string): LanePlan => ({
  key,
  model: 'Quern S10',
  side: 'centre',
  row: 'boot',
  position: 'boot-floor',
  cover: 'boot-floor',
  amplifier,
  highPassHz: null,
  lowPassHz: 80,
});

const twoWay = [...pair(tweeters(2800), ['A/1', 'A/2']), ...pair(doors(2800), ['A/3', 'A/4'])];
const threeWay = (amplifier: string, low: [string, string]) => [
  ...pair(tweeters(2600), [`${amplifier}/1`, `${amplifier}/2`]),
  ...pair(mids(2600), [`${amplifier}/3`, `${amplifier}/4`]),
  ...pair(doors(300), low),
];
const one: CarPlan['amplifiers'] = { A: 'Haldane Q4' };

const cars = {
  'two-way-front': { source: 'Corvane H7', amplifiers: one, lanes: twoWay },
  'two-way-front-sub': {
    source: 'Corvane H7',
    amplifiers: { ...one, B: 'Haldane M1' },
    lanes: [...twoWay, sub('Boot', 'B/1')],
  },
  'two-way-front-rear-sub': {
    source: 'Corvane H7',
    amplifiers: { A: 'Haldane D8', B: 'Haldane M1' },
    lanes: [...twoWay, ...pair(rears, ['A/5', 'A/6']), sub('Boot', 'B/1')],
  },
  'three-way-front-sub': {
    source: 'Corvane H7',
    amplifiers: { A: 'Haldane D8', B: 'Haldane M1' },
    lanes: [...threeWay('A', ['A/5', 'A/6']), sub('Boot', 'B/1')],
  },
  'three-way-front-two-subs': {
    source: 'Corvane H7',
    amplifiers: { A: 'Haldane Q4', B: 'Haldane Q4', C: 'Haldane M1', D: 'Haldane M1' },
    lanes: [...threeWay('A', ['B/1', 'B/2']), sub('Boot, left box', 'C/1'), sub('Boot, right box', 'D/1')],
  },
  'factory-integrated': {
    source: 'Factory radio',
    amplifiers: { A: 'Haldane Q4', B: 'Haldane M1' },
    lanes: [...twoWay, sub('Boot', 'B/1')],
  },
  /** Pillar tweeters, kick-panel mids, door midbass and one subwoofer of two coils. */
  'seven-channel': {
    source: 'Corvane H7',
    amplifiers: { A: 'Haldane Q4', B: 'Haldane Q4', C: 'Haldane M1' },
    lanes: [...threeWay('A', ['B/1', 'B/2']), sub('Boot', 'C/1')],
  },
} as const satisfies Record<string, CarPlan>;

export type TemplateName = keyof typeof cars;
export const templateNames = Object.keys(cars) as TemplateName[];

/** The plan that a template starts with. */
export function templatePlan(name: TemplateName): Plan {
  return planFromLanes(cars[name]);
}
