// What is looked over when a car comes, and again before it goes back: the list, and what each is expected to show.
import type { CheckStage, CheckUnit, FoundHow, PlainCheckUnit } from './check-forms.ts';

export const checkGroups = [
  'complaint',
  'condition',
  'marks',
  'battery',
  'dash',
  'sounds',
  'works',
  'baseline',
] as const;
export type CheckGroup = (typeof checkGroups)[number];

/** What a meter should read of a 12 V network; of a 24 V network twice the volts. */
export interface CheckExpectation {
  low: number;
  high: number;
  unit: PlainCheckUnit;
  /** Which way is better within the range; `inside` where neither is. */
  better: 'higher' | 'lower' | 'inside';
  /** So little is no difference between two readings. */
  sameWithin: number;
  /** Before so many minutes a value that is too high may still fall. */
  settlesMin?: number;
  /** Where the range comes from. */
  source: { kind: 'standard' | 'practice'; says: string };
}

export interface Check {
  id: string;
  group: CheckGroup;
  name: string;
  /** How it is tried. */
  says: string;
  /** What may be given at each stage, the usual way first; none where it is not asked. */
  answers: Record<CheckStage, readonly FoundHow[]>;
  caution?: string;
  expected?: CheckExpectation;
  /** In which unit a meter shows it. */
  unit?: CheckUnit;
}

const looked = { arrive: ['photo', 'seen'], refit: ['seen', 'photo'] } as const;
const tried = { arrive: ['seen'], refit: ['seen'] } as const;
const heard = { arrive: ['take', 'seen'], refit: ['seen', 'take'] } as const;
const metered = { arrive: ['measured'], refit: ['measured'] } as const;

const condition = (id: string, name: string, says: string): Check => ({
  id,
  group: 'condition',
  name,
  says,
  answers: looked,
});

const sound = (id: string, name: string, says: string): Check => ({ id, group: 'sounds', name, says, answers: heard });

const works = (id: string, name: string, says: string, caution?: string): Check => ({
  id,
  group: 'works',
  name,
  says,
  answers: tried,
  ...(caution === undefined ? {} : { caution }),
});

/** In the order in which a car is walked: outside, battery while it sleeps, then what wakes it. */
export const checks: readonly Check[] = [
  {
    id: 'complaint',
    group: 'complaint',
    name: 'The complaint',
    says: 'What the owner says is wrong, in the words of the owner; at Refit, whether it is gone.',
    answers: { arrive: ['said'], refit: ['seen'] },
  },
  condition('nose', 'Nose', 'The whole front, square on.'),
  condition('left-side', 'Left side', 'The whole side, square on, doors shut.'),
  condition('right-side', 'Right side', 'The whole side, square on, doors shut.'),
  condition('tail', 'Tail', 'The whole rear, square on, with the boot shut.'),
  condition('load-floor', 'Boot and load floor', 'What lies there, and the floor under it.'),
  condition('seats', 'Seats and trim', 'The front seats with the door trims, so that wear can be seen.'),
  {
    id: 'resting-volts',
    group: 'battery',
    name: 'Resting volts',
    says: 'Volts across the battery posts, engine off for half an hour, lamps off.',
    answers: metered,
    caution: 'Keep rings, watches and tools away from the posts: a short across a battery burns at once.',
    unit: 'V',
    expected: {
      low: 12.4,
      high: 12.8,
      unit: 'V',
      better: 'higher',
      sameWithin: 0.1,
      source: {
        kind: 'practice',
        says: 'Six lead-acid cells at rest: 12.6 V charged, 12.2 V half charged; above 12.8 V the charge of the last drive still stands.',
      },
    },
  },
  {
    id: 'standby-draw',
    group: 'battery',
    name: 'Draw while locked',
    says: 'Amperes out of the battery, locked and left alone; read again until it is asleep, up to half an hour.',
    answers: metered,
    caution:
      'Use a clamp, or put the meter across the terminal before the lead comes off: with a meter in the lead no door, starter or lamp may be switched on, or its fuse opens.',
    unit: 'A',
    expected: {
      low: 0,
      high: 0.05,
      unit: 'A',
      better: 'lower',
      sameWithin: 0.01,
      settlesMin: 30,
      source: {
        kind: 'practice',
        says: 'A sleeping car draws 20 to 50 mA; one module awake half an ampere. Modules fall asleep within half an hour.',
      },
    },
  },
  {
    id: 'charging-volts',
    group: 'battery',
    name: 'Charging volts',
    says: 'Volts across the battery posts, engine at a fast idle, headlamps on.',
    answers: metered,
    caution:
      'The engine runs: exhaust led outside, gear out and brake on, sleeves, hair and leads clear of belts and fan.',
    unit: 'V',
    expected: {
      low: 13.5,
      high: 14.8,
      unit: 'V',
      better: 'inside',
      sameWithin: 0.3,
      source: {
        kind: 'practice',
        says: 'Alternators hold 13.5 to 14.8 V; amplifiers are rated at 14.4 V (ANSI/CTA-2006).',
      },
    },
  },
  {
    id: 'warning-lamps',
    group: 'dash',
    name: 'Warning lamps',
    says: 'Ignition on, then engine on: all lamps go out that should. A fault names those that stay.',
    answers: { arrive: ['seen', 'photo'], refit: ['seen', 'photo'] },
    caution: 'An airbag lamp that stays on: touch no yellow connector, and tell the owner before any work.',
  },
  sound('door-chime', 'Door left open', 'Key in or lights on, then open the door.'),
  sound('indicator', 'Indicator', 'Left and right.'),
  sound('seat-belt', 'Seat belt', 'Ignition on, somebody on the seat, belt open.'),
  sound('parking-tone', 'Parking tone', 'In reverse, near a wall: front and rear if it has both.'),
  sound('call-ringing', 'Call ringing', 'Have the telephone called that is paired with the car.'),
  sound('prompts', 'Spoken prompts', 'Navigation, or the voice of the car.'),
  works('radio', 'Radio reception', 'One strong and one weak station on each band.'),
  works(
    'camera-sensors',
    'Camera and sensors',
    'Picture in reverse; each sensor by a hand in front of it.',
    'Engine off and brake on before anybody stands behind the car.',
  ),
  works('windows', 'Windows', 'Each one down and up, from the switch and by one touch.'),
  works('locks', 'Locks', 'Each door by the remote and by the key, the boot, and the double lock.'),
  {
    id: 'baseline',
    group: 'baseline',
    name: 'Baseline take',
    says: 'A take at the seat of the car as it came: what the work is held against. It comes last, as a door that opens wakes the car.',
    answers: { arrive: ['take'], refit: ['take'] },
  },
];

const marksMax = 99;

/** A mark that the car has: "mark-3". They are numbered as they are found. */
const markForm = /^mark-([1-9]\d?)$/;

/** The check of a name; null where there is none. */
export function checkNamed(id: string): Check | null {
  const number = markForm.exec(id)?.[1];
  if (number === undefined) return checks.find((check) => check.id === id) ?? null;
  return {
    id,
    group: 'marks',
    name: `Mark ${number}`,
    says: 'A scratch, dent, chip or wear: a photo, and where it is in words.',
    answers: looked,
  };
}

/** The next mark that no entry has named; null where there are 99. */
export function nextMark(taken: Iterable<string>): string | null {
  const numbers = [...taken].map((id) => Number(markForm.exec(id)?.[1] ?? 0));
  const next = Math.max(0, ...numbers) + 1;
  return next > marksMax ? null : `mark-${next}`;
}
