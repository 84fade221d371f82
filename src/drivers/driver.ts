// A driver as its small-signal parameters, and everything that follows from them.
import { dbFromPower } from '../base/decibel.ts';
import { airKgPerM3, airStiffnessPa, soundMPerS, zeroDbPa } from './air.ts';

/** Coil inductance: plain, or lossy as K (j w)^n with n from 0.5 to 1; none is `{ leH: 0 }`. */
export type CoilInductance = { leH: number } | { k: number; n: number };

/** What the forecast needs of a driver, in SI units; all above 0. */
export interface Driver {
  /** Resonance in free air. */
  fsHz: number;
  /** Coil, direct current. */
  reOhm: number;
  qms: number;
  qes: number;
  sdM2: number;
  /** Moving mass with its air. */
  mmsKg: number;
  coil: CoilInductance;
}

/** What follows from a driver's parameters, in SI units. */
export interface DerivedDriver {
  qts: number;
  vasM3: number;
  cmsMPerN: number;
  rmsKgPerS: number;
  blTm: number;
  /** Efficiency into half space, 0 to 1. */
  eta0: number;
  /** At 1 m with 1 W. */
  spl1wDb: number;
  /** At 1 m with 2.83 V. */
  spl283Db: number;
  /** Below 50 rather sealed, above 90 rather vented. */
  ebpHz: number;
}

/** Both Qs together: Qms Qes / (Qms + Qes). */
export const totalQ = (qms: number, qes: number) => 1 / (1 / qms + 1 / qes);

/** Level at 1 m with 1 W of an efficiency into half space, dB. */
export const sensitivityDb = (eta0: number) =>
  dbFromPower(eta0) + dbFromPower((airKgPerM3 * soundMPerS) / (2 * Math.PI * zeroDbPa ** 2));

/** Efficiency into half space, 0 to 1, of resonance, equivalent volume and electrical Q. */
export const referenceEfficiency = (fsHz: number, vasM3: number, qes: number) =>
  ((4 * Math.PI ** 2) / soundMPerS ** 3) * ((fsHz ** 3 * vasM3) / qes);

/** Moving mass, kg, of a suspension as stiff as `vasM3` of air behind `sdM2`. */
export function massFromVas(fsHz: number, sdM2: number, vasM3: number): number {
  return (airStiffnessPa * sdM2 ** 2) / ((2 * Math.PI * fsHz) ** 2 * vasM3);
}

/**
 * Everything that follows from a driver's parameters. The levels are those of the model at low frequencies; a maker's
 * figure may be a mean over a higher band.
 *
 * Source: R. H. Small, J. Audio Eng. Soc. 20(5), 1972, 383-395.
 */
export function deriveDriver({ fsHz, reOhm, qms, qes, sdM2, mmsKg }: Driver): DerivedDriver {
  const w = 2 * Math.PI * fsHz;
  const cmsMPerN = 1 / (w * w * mmsKg);
  const vasM3 = airStiffnessPa * sdM2 ** 2 * cmsMPerN;
  const eta0 = referenceEfficiency(fsHz, vasM3, qes);
  const spl1wDb = sensitivityDb(eta0);
  return {
    qts: totalQ(qms, qes),
    vasM3,
    cmsMPerN,
    rmsKgPerS: (w * mmsKg) / qms,
    blTm: Math.sqrt((w * mmsKg * reOhm) / qes),
    eta0,
    spl1wDb,
    spl283Db: spl1wDb + dbFromPower(8 / reOhm),
    ebpHz: fsHz / qes,
  };
}

/**
 * Q with resistance between amplifier and coil: cable, joints, the amplifier's own.
 *
 * @param sourceOhm 0 or more
 * @example sourceQ({ reOhm: 3.4, qms: 4.8, qes: 0.58 }, 0.4).qes // 0.648
 */
export function sourceQ(
  { reOhm, qms, qes }: Pick<Driver, 'reOhm' | 'qms' | 'qes'>,
  sourceOhm: number,
): { qes: number; qts: number } {
  const effective = (qes * (reOhm + sourceOhm)) / reOhm;
  return { qes: effective, qts: totalQ(qms, effective) };
}
