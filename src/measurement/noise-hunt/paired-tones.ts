// The tones of the takes, those that are one and the same put together, with what they do when the engine turns faster.
import {
  classOfOrder,
  inMainsFamily,
  LEAST_FAMILY,
  MAINS_HZ,
  type SpeedSource,
  standsStill,
  type ToneClass,
  trackedTones,
} from './order-tracking.ts';
import { speedRatio } from './speed-ratio.ts';
import type { HeardTone, TakeNoise } from './take-noise.ts';

export type HuntedClass = Exclude<ToneClass, 'in one only'> | 'cannot tell';

/** What there is to go by; a take that cannot be used is left out. */
export interface HuntTakes {
  off?: TakeNoise | undefined;
  idle?: { noise: TakeNoise; rpm: number | null } | undefined;
  revs?: { noise: TakeNoise; rpm: number | null } | undefined;
  /** Engine off and system off. */
  systemOff?: TakeNoise | undefined;
  /** Engine idling, system off. */
  engineAlone?: TakeNoise | undefined;
}

/** One tone in each of the takes that it was heard in. */
export interface Paired {
  off?: HeardTone | undefined;
  idle?: HeardTone | undefined;
  revs?: HeardTone | undefined;
  class: HuntedClass;
  order: number | null;
  overlaps: boolean;
  why: string;
}

/** An engine that idles turns between these, rpm. */
const IDLE_RPM = { from: 600, to: 1100 };
const ONE_SPEED = 'One engine speed cannot show whether it moves with the engine.';
const NO_SPEEDS = 'The speeds are not known, and the tones alone do not give them.';
const IN_ONE_TAKE = 'It is in one of the takes only: too faint in the other, or the revs wandered.';

/** The class that every idle speed gives, or none. */
function classAtIdle(idleHz: number): HuntedClass {
  const [high, low] = [IDLE_RPM.from, IDLE_RPM.to].map((rpm) => classOfOrder(idleHz / (rpm / 60)));
  return high === low ? high : 'cannot tell';
}

const atSamePlace = (tone: HeardTone, others: readonly HeardTone[] | undefined): HeardTone | undefined =>
  others?.find((other) => standsStill(tone, other));

/** Members of the mains families among tones that stand still. */
function mainsAmong(tones: readonly HeardTone[]): Set<HeardTone> {
  const members = MAINS_HZ.map((mainsHz) => tones.filter(({ fHz }) => inMainsFamily(fHz, mainsHz)));
  return new Set(members.filter(({ length }) => length >= LEAST_FAMILY).flat());
}

const standingWhy = (mains: boolean): string =>
  mains ? 'It belongs to a family of mains hum.' : 'It stands still whatever the engine does.';

/** Tones of one take with a running engine, against the engine off where that was recorded. */
function ofOneSpeed(role: 'idle' | 'revs', tones: readonly HeardTone[], off: TakeNoise | undefined): Paired[] {
  const standing = tones.filter((tone) => atSamePlace(tone, off?.tones));
  const mains = mainsAmong(off ? standing : tones);
  return tones.map((tone) => {
    const member = mains.has(tone);
    const known = member || standing.includes(tone);
    const why = known ? standingWhy(member) : ONE_SPEED;
    return {
      [role]: tone,
      class: member ? 'mains' : known ? 'fixed' : 'cannot tell',
      order: null,
      overlaps: false,
      why,
    };
  });
}

/** Tones of two speeds that nobody noted and the tones do not give: only what stands still is told. */
function ofUnknownSpeeds(ones: readonly HeardTone[], twos: readonly HeardTone[]): Paired[] {
  const standing = ones.filter((tone) => atSamePlace(tone, twos));
  const mains = mainsAmong(standing);
  const untold = { class: 'cannot tell', order: null, overlaps: false, why: NO_SPEEDS } as const;
  return [
    ...ones.map((tone): Paired => {
      const revs = atSamePlace(tone, twos);
      if (!revs) return { ...untold, idle: tone };
      const member = mains.has(tone);
      return { ...untold, idle: tone, revs, class: member ? 'mains' : 'fixed', why: standingWhy(member) };
    }),
    ...twos.filter((tone) => !atSamePlace(tone, ones)).map((tone): Paired => ({ ...untold, revs: tone })),
  ];
}

interface AtSpeed {
  noise: TakeNoise;
  rpm: number | null;
}

/** Both speeds as far as they are noted, the rest from the tones; null where they do not give it. */
function speedsOf(idle: AtSpeed, revs: AtSpeed): { idleRpm: number; revsRpm: number; noted: boolean } | null {
  if (idle.rpm !== null && revs.rpm !== null) return { idleRpm: idle.rpm, revsRpm: revs.rpm, noted: true };
  const ratio = speedRatio(idle.noise.tones, revs.noise.tones);
  if (ratio === null) return null;
  const middleRpm = (IDLE_RPM.from + IDLE_RPM.to) / 2;
  const idleRpm = idle.rpm ?? (revs.rpm === null ? middleRpm : revs.rpm / ratio);
  const noted = idle.rpm !== null || revs.rpm !== null;
  return idleRpm >= 100 && idleRpm * ratio <= 20_000 ? { idleRpm, revsRpm: idleRpm * ratio, noted } : null;
}

function ofTwoSpeeds(idle: AtSpeed, revs: AtSpeed, speed: SpeedSource): Paired[] {
  const [ones, twos] = [idle.noise.tones, revs.noise.tones];
  const speeds = speedsOf(idle, revs);
  if (!speeds) return ofUnknownSpeeds(ones, twos);
  const { idleRpm, revsRpm, noted } = speeds;
  return trackedTones({ rpm: idleRpm, tones: ones }, { rpm: revsRpm, tones: twos }, speed).map((tone): Paired => {
    const pair = {
      idle: ones.find(({ fHz }) => fHz === tone.firstHz),
      revs: twos.find(({ fHz }) => fHz === tone.secondHz),
      overlaps: tone.overlaps,
    };
    const { firstHz, secondHz } = tone;
    if (tone.class === 'in one only' || firstHz === null || secondHz === null) {
      return { ...pair, class: 'cannot tell', order: null, why: IN_ONE_TAKE };
    }
    if (tone.order === null) {
      return { ...pair, class: tone.class, order: null, why: standingWhy(tone.class === 'mains') };
    }
    const moves = `It moves with the engine: ${(secondHz / firstHz).toFixed(3)} times as high at the higher speed`;
    if (noted) return { ...pair, class: tone.class, order: tone.order, why: `${moves}.` };
    const found = classAtIdle(firstHz);
    const why =
      found === 'cannot tell'
        ? `${moves}; the speeds are not known, so its order is not.`
        : `${moves}; the speeds are not known, but at any idle from ${IDLE_RPM.from} to ${IDLE_RPM.to} rpm its order is of this class.`;
    return { ...pair, class: found, order: null, why };
  });
}

/** Adds the tones of the engine-off take: to the one that stands at the same place, or as its own. */
function withOff(paired: Paired[], off: TakeNoise | undefined): Paired[] {
  if (!off) return paired;
  const mains = mainsAmong(off.tones);
  const joined = [...paired];
  for (const tone of off.tones) {
    const at = joined.findIndex(({ idle, revs, order }) =>
      [idle, revs].some((other) => other && standsStill(tone, other) && order === null),
    );
    const member = mains.has(tone);
    if (at < 0) {
      joined.push({
        off: tone,
        class: member ? 'mains' : 'fixed',
        order: null,
        overlaps: false,
        why: member ? standingWhy(true) : 'It is there with the engine off.',
      });
      continue;
    }
    const other = joined[at];
    const told = other.class === 'cannot tell' ? { class: member ? ('mains' as const) : ('fixed' as const) } : {};
    const why = other.class === 'cannot tell' ? standingWhy(member) : other.why;
    joined[at] = { ...other, ...told, why, off: tone };
  }
  return joined;
}

/**
 * The tones of the takes, paired and classed; those of the engine-off take joined to what stands at their place.
 *
 * @throws RangeError  noted speeds outside their range or too close to each other
 */
export function pairedTones({ off, idle, revs }: HuntTakes, speed: SpeedSource): Paired[] {
  if (idle && revs) return withOff(ofTwoSpeeds(idle, revs, speed), off);
  if (idle) return withOff(ofOneSpeed('idle', idle.noise.tones, off), off);
  return withOff(revs ? ofOneSpeed('revs', revs.noise.tones, off) : [], off);
}
