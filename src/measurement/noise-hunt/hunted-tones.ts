// Every tone of the takes, told apart by what it does when the engine turns faster, is off, or the system is off.
import { toneAudibility } from './noise-levels.ts';
import type { SpeedSource } from './order-tracking.ts';
import { carsOwn, idleHzOf, onEngineOrders } from './own-sound.ts';
import { type HuntedClass, type HuntTakes, type Paired, pairedTones } from './paired-tones.ts';

/** A tone of the takes; frequencies are null where it was not heard. */
export interface HuntedTone {
  offHz: number | null;
  idleHz: number | null;
  revsHz: number | null;
  class: HuntedClass;
  /** Periods per turn of the crankshaft; null where it does not follow the engine or no speed is known. */
  order: number | null;
  heardIn: 'off' | 'idle' | 'revs';
  /** Where it is loudest, dB re a full-scale square. */
  levelDbfs: number;
  /** Noise of its third octave there. */
  bandNoiseDbfs: number;
  overNoiseDb: number;
  audible: boolean;
  /** Over the noise of its third octave with the engine off; null without that take. */
  overOffHissDb: number | null;
  /** Not above the hiss with the engine off; null where that is not known. */
  withinAim: boolean | null;
  /** As loud with the system off: the car makes it; null where no such take was made. */
  carsOwn: boolean | null;
  overlaps: boolean;
  /** Its order is a multiple of one of the engine's own, so the engine may make it; false where the car's own is known. */
  mayBeEngine: boolean;
  /** Why it is classed so, or why it cannot be. */
  why: string;
}

/** What the engine's own sound may be taken for. */
const engineLike: readonly HuntedClass[] = ['engine or ignition', 'alternator phase', 'cannot tell'];

function asHunted(paired: Paired, takes: HuntTakes, engineHz: readonly number[]): HuntedTone {
  const heard = (['off', 'idle', 'revs'] as const).flatMap((role) => {
    const tone = paired[role];
    return tone ? [{ role, tone }] : [];
  });
  const loudest = heard.reduce((a, b) => (b.tone.levelDbfs > a.tone.levelDbfs ? b : a));
  const { levelDbfs, bandNoiseDbfs, overNoiseDb } = loudest.tone;
  const own = carsOwn(paired, takes);
  const atIdleHz = engineLike.includes(paired.class) && !paired.off ? idleHzOf(paired, takes) : null;
  const mayBeEngine = own === null && atIdleHz !== null && onEngineOrders(atIdleHz, engineHz);
  const spectrum = takes.off?.spectrum;
  const over = spectrum
    ? Math.max(...heard.map(({ tone }) => tone.levelDbfs - toneAudibility(spectrum, tone).bandNoiseDbfs))
    : null;
  return {
    offHz: paired.off?.fHz ?? null,
    idleHz: paired.idle?.fHz ?? null,
    revsHz: paired.revs?.fHz ?? null,
    class: paired.class,
    order: paired.order,
    heardIn: loudest.role,
    levelDbfs,
    bandNoiseDbfs,
    overNoiseDb,
    audible: heard.some(({ tone }) => tone.audible),
    overOffHissDb: over,
    withinAim: over === null ? null : over <= 0,
    carsOwn: own,
    overlaps: paired.overlaps,
    mayBeEngine,
    why:
      mayBeEngine && paired.class !== 'engine or ignition'
        ? `${paired.why} Its order is a multiple of one of the engine’s: the engine may make it.`
        : paired.why,
  };
}

/**
 * All tones of the takes, the loudest first.
 *
 * @param takes  those that can be used; the revs, where known, 100 .. 20 000 and 5 % apart at least, the idle lower
 * @param speed  how the revs are known
 * @throws RangeError  speeds outside their range or too close to each other
 * Source: own method; see `trackedTones`.
 */
export function huntedTones(takes: HuntTakes, speed: SpeedSource): HuntedTone[] {
  const paired = pairedTones(takes, speed);
  const engineHz = paired.flatMap(({ class: found, idle }) =>
    found === 'engine or ignition' && idle ? [idle.fHz] : [],
  );
  return paired.map((pair) => asHunted(pair, takes, engineHz)).sort((a, b) => b.levelDbfs - a.levelDbfs);
}
