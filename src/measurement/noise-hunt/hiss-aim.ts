// Whether the hiss with the engine off keeps to the aim of good work.
import type { TakeNoise } from './take-noise.ts';

/** To 30 dB(A) at the ear, or 6 dB over the noise with the system off in each octave from 1 kHz up: good work. */
const MOST_HISS_DBA = 30;
const MOST_OVER_DB = 6;
const FROM_HZ = 1000;

export interface HissFound {
  verdict: 'within' | 'above' | 'cannot say';
  /** A-weighted without tones, dB re a full-scale square. */
  hissDbfs: number;
  /** Over the noise with the system off, octave by octave from 1 kHz up; empty without that take. */
  overSystemOff: { fHz: number; overDb: number }[];
  /** Over the system off by more than the aim, whether or not it keeps to the level at the ear. */
  standsOut: boolean;
  /** Over the level at the ear that good work keeps to; false where levels are relative. */
  loud: boolean;
  why: string;
}

/**
 * Holds the hiss against the aim: 30 dB(A) at the ear, or 6 dB over the noise with the system off in every octave from
 * 1 kHz up; one of the two is enough.
 *
 * @param off             engine off, system on
 * @param systemOff       the same with the system off, at the same recording level
 * @param fullScaleSplDb  what full scale stands for, dB SPL; undefined: levels are relative
 * @returns null where the take cannot be used
 * Source: own aim, an assumption: what is not heard in a quiet parked car.
 */
export function hissFound(
  off: TakeNoise | undefined,
  systemOff: TakeNoise | undefined,
  fullScaleSplDb: number | undefined,
): HissFound | null {
  if (!off || off.hissDbfs === null) return null;
  const background = systemOff && systemOff.hissDbfs !== null ? systemOff.octaves : null;
  const overSystemOff = background
    ? off.octaves.flatMap(({ fHz, levelDbfs }) => {
        const other = background.find((octave) => octave.fHz === fHz);
        return fHz >= FROM_HZ && other ? [{ fHz, overDb: levelDbfs - other.levelDbfs }] : [];
      })
    : [];
  const splDb = fullScaleSplDb === undefined ? null : off.hissDbfs + fullScaleSplDb;
  const found = {
    hissDbfs: off.hissDbfs,
    overSystemOff,
    standsOut: false,
    loud: splDb !== null && splDb > MOST_HISS_DBA,
  };
  const worst = overSystemOff.reduce<{ fHz: number; overDb: number } | null>(
    (a, b) => (!a || b.overDb > a.overDb ? b : a),
    null,
  );
  const level = splDb === null ? null : `${splDb.toFixed(1)} dB(A)`;
  if (splDb !== null && splDb <= MOST_HISS_DBA) {
    return { ...found, verdict: 'within', why: `Hiss is ${level}; up to ${MOST_HISS_DBA} dB(A) is good work.` };
  }
  const over = worst ? `${Math.max(worst.overDb, 0).toFixed(1)} dB over the system off at ${worst.fHz} Hz` : null;
  if (worst && worst.overDb <= MOST_OVER_DB) {
    const why = `Hiss is at most ${over}; up to ${MOST_OVER_DB} dB in every octave is good work.`;
    return { ...found, verdict: 'within', why };
  }
  if (level !== null && over !== null) {
    const why = `Hiss is ${level} and ${over}; good work keeps to ${MOST_HISS_DBA} dB(A) or ${MOST_OVER_DB} dB.`;
    return { ...found, verdict: 'above', standsOut: true, why };
  }
  if (level !== null) {
    const why = `There is ${level} of noise, more than ${MOST_HISS_DBA} dB(A), but without a take with the system off nobody knows how much of it is the system’s.`;
    return { ...found, verdict: 'cannot say', why };
  }
  const why =
    over === null
      ? 'Levels are relative: without a calibration or a take with the system off there is nothing to hold them against.'
      : `Hiss stands ${over}, more than ${MOST_OVER_DB} dB; whether it keeps to ${MOST_HISS_DBA} dB(A) only a calibrated level can say.`;
  return { ...found, verdict: 'cannot say', standsOut: over !== null, why };
}
