// What sound pressure level full scale stands for: from a calibrator's tone, or from the figures of microphone and input.
import { assertRange } from '../../base/assert.ts';

/** One pascal, dB re 20 micropascal. */
const pascalDb = 20 * Math.log10(1 / 20e-6);
/** A full-scale sine, dB re a full-scale square: the figures of data sheets count sines. */
const sineDb = 10 * Math.log10(0.5);

/**
 * Full scale as a sound pressure level from a tone of known level.
 *
 * @param knownDb      level of the calibrator, 40 .. 140 dB SPL
 * @param measuredDbfs root mean square of the tone, dB re a full-scale square, -120 .. 0
 * @param deviationDb  the microphone's deviation at the tone, measured minus true; 0 where none is known
 * @returns dB SPL that full scale stands for
 */
export function fullScaleFromTone(knownDb: number, measuredDbfs: number, deviationDb = 0): number {
  assertRange('knownDb', knownDb, 40, 140);
  assertRange('measuredDbfs', measuredDbfs, -120, 0);
  return knownDb - measuredDbfs + deviationDb;
}

/**
 * Full scale as a sound pressure level from what an analogue microphone and its input are said to do.
 *
 * One pascal gives `mvPerPa`; a sine of `inputVrms` just reaches full scale, so its peak is full scale.
 *
 * @param mvPerPa   sensitivity, 0.01 .. 1000 mV/Pa
 * @param inputVrms largest sine that the input takes, 0.001 .. 100 V RMS
 */
export function fullScaleFromSensitivity(mvPerPa: number, inputVrms: number): number {
  assertRange('mvPerPa', mvPerPa, 0.01, 1000);
  assertRange('inputVrms', inputVrms, 0.001, 100);
  const pascalDbfs = 20 * Math.log10(mvPerPa / 1000 / inputVrms) + sineDb;
  return pascalDb - pascalDbfs;
}

/**
 * Full scale as a sound pressure level from a digital microphone's figure: what it reads at 94 dB.
 *
 * @param dbfsAt94 -80 .. 0 dB re a full-scale sine, as data sheets of digital microphones count
 */
export function fullScaleFromDigital(dbfsAt94: number): number {
  assertRange('dbfsAt94', dbfsAt94, -80, 0);
  return 94 - (dbfsAt94 + sineDb);
}

/** What a person typed as a number, with either decimal sign; null when it is none. */
export function typedNumber(text: string): number | null {
  const plain = text.trim().replace('\u2212', '-').replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain)) return null;
  return Number(plain);
}

export interface ToneState {
  /** Mean of the last moments, dB re a full-scale square. */
  levelDbfs: number;
  /** Standard deviation of those moments, dB. */
  wanderDb: number;
  /** How far the tone's band stands over the loudest other band but its neighbours, dB. */
  aboveOthersDb: number;
  /** How long it has been heard, s. */
  seconds: number;
}

/** How long a tone must stand, s, and how still, dB. */
export const toneS = 5;
export const wanderMaxDb = 0.1;
export const aboveOthersMinDb = 15;

export interface ToneWatch {
  feed(momentDb: ArrayLike<number>, fHz: ArrayLike<number>, seconds: number): ToneState;
}

/** Watches a calibrator's tone of `toneHz` until it stands still. */
export function toneWatch(toneHz: number): ToneWatch {
  const moments: { seconds: number; levelDb: number }[] = [];
  return {
    feed(momentDb, fHz, seconds) {
      let at = 0;
      for (let b = 1; b < fHz.length; b++) {
        if (Math.abs(Math.log(fHz[b] / toneHz)) < Math.abs(Math.log(fHz[at] / toneHz))) at = b;
      }
      let others = -200;
      for (let b = 0; b < fHz.length; b++) if (Math.abs(b - at) > 1) others = Math.max(others, momentDb[b]);
      moments.push({ seconds, levelDb: momentDb[at] });
      while (moments.length > 0 && moments[0].seconds < seconds - toneS) moments.shift();
      const mean = moments.reduce((sum, { levelDb }) => sum + levelDb, 0) / moments.length;
      const square = moments.reduce((sum, { levelDb }) => sum + (levelDb - mean) ** 2, 0);
      return {
        levelDbfs: mean,
        wanderDb: moments.length < 2 ? Number.POSITIVE_INFINITY : Math.sqrt(square / (moments.length - 1)),
        aboveOthersDb: momentDb[at] - others,
        seconds: seconds - moments[0].seconds,
      };
    },
  };
}

/** Why the tone cannot be taken yet; null when it can. */
export function toneWaits({ wanderDb, aboveOthersDb, seconds, levelDbfs }: ToneState): string | null {
  if (levelDbfs < -100) return 'no tone is heard';
  if (aboveOthersDb < aboveOthersMinDb) return 'the tone does not stand out of the rest';
  if (levelDbfs > -3.5) return 'too hot: turn the input down';
  if (seconds < toneS - 0.5) return 'hold still for five seconds';
  if (wanderDb > wanderMaxDb) return 'it wanders: press the calibrator on firmly';
  return null;
}
