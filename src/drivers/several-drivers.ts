// Several drivers that act as one, one driver with two coils, and a cone under its own weight.
import { dbFromAmplitude } from '../base/decibel.ts';
import { type Driver, deriveDriver, totalQ } from './driver.ts';

/**
 * Alike drivers in one box as one driver: `series` in a string, `parallel` strings.
 *
 * @param series,parallel  whole, 1 or more
 * @returns the one driver, its force factor, and what level rises by at the same amplifier voltage, dB
 * Source: R. H. Small, J. Audio Eng. Soc. 20(5), 1972: area, mass and compliance volume add, Q stays.
 */
export function combined(driver: Driver, series: number, parallel: number) {
  const count = series * parallel;
  const { blTm, qts, vasM3 } = deriveDriver(driver);
  return {
    sdM2: driver.sdM2 * count,
    mmsKg: driver.mmsKg * count,
    vasM3: vasM3 * count,
    reOhm: (driver.reOhm * series) / parallel,
    blTm: blTm * series,
    qts,
    splGainSameVoltageDb: dbFromAmplitude(count / series),
  };
}

/**
 * Two alike drivers face to face on one opening as one driver: they move together, so one area carries twice the mass.
 *
 * @param join  how the two are wired to one another
 * @returns as `combined`; level against one driver alone at the same amplifier voltage
 * Source: derivation: mass and stiffness twice, area once; force over resistance decides the level above resonance.
 */
export function isobaric(driver: Driver, join: 'series' | 'parallel') {
  const { blTm, qts, vasM3 } = deriveDriver(driver);
  const ohms = join === 'series' ? 2 : 0.5;
  const force = join === 'series' ? 2 : 1;
  return {
    sdM2: driver.sdM2,
    mmsKg: 2 * driver.mmsKg,
    vasM3: vasM3 / 2,
    reOhm: ohms * driver.reOhm,
    blTm: force * blTm,
    qts,
    splGainSameVoltageDb: dbFromAmplitude(force / ohms / 2),
  };
}

export const coilJoins = ['series', 'parallel', 'one-open', 'one-shorted'] as const;

/** A driver with both its coils in series. */
export interface SeriesCoils {
  reSeriesOhm: number;
  qesSeries: number;
  qms: number;
  blSeriesTm: number;
}

/**
 * The same driver with its coils joined in another way. A shorted coil brakes the cone, so that the whole Q is again that
 * of both coils.
 *
 * Source: derivation: each coil has half the resistance and half the force factor of the two in series, and
 *   Qes = 2 pi fs Mms Re / (Bl)^2.
 */
export function dualCoil({ reSeriesOhm, qesSeries, qms, blSeriesTm }: SeriesCoils, join: (typeof coilJoins)[number]) {
  const single = join === 'one-open' || join === 'one-shorted';
  const reOhm = join === 'series' ? reSeriesOhm : join === 'parallel' ? reSeriesOhm / 4 : reSeriesOhm / 2;
  const qes = single ? 2 * qesSeries : qesSeries;
  return {
    reOhm,
    qes,
    blTm: join === 'series' ? blSeriesTm : blSeriesTm / 2,
    qts: totalQ(qms, join === 'one-open' ? qes : qesSeries),
  };
}

/** Standard gravity, m/s2. */
const GRAVITY = 9.80665;
const NOTED_PCT = 5;

/**
 * How far a cone that faces up or down sinks under its own weight.
 *
 * @returns sag in m and as a share of the stroke; `note` above 5 %: turn the driver each year, or let it face sideways
 * Source: statics: x = m g / k = g / (2 pi fs)^2; gravity by ISO 80000-3.
 */
export function coneSag(fsHz: number, xmaxM: number): { sagM: number; pctOfXmax: number; verdict: 'ok' | 'note' } {
  const sagM = GRAVITY / (2 * Math.PI * fsHz) ** 2;
  const pctOfXmax = (100 * sagM) / xmaxM;
  return { sagM, pctOfXmax, verdict: pctOfXmax > NOTED_PCT ? 'note' : 'ok' };
}
