// How loud a driver may play in this system: amplifier, stroke or heat, whichever comes first.
import { dbFromAmplitude } from '../base/decibel.ts';
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';
import { crossoverLevelDb, type PlannedFilter } from '../signals/filters/crossover-level.ts';
import { zeroDbPa } from './air.ts';
import type { Box } from './box.ts';
import type { Driver } from './driver.ts';
import { bandsLevelDb, type PlannedBand } from './equaliser-level.ts';
import { driverMotion } from './motion.ts';

export type Limit = 'excursion' | 'thermal' | 'amplifier';

/** A driver with what stands before it. */
export interface DrivenDriver {
  driver: Driver;
  box: Box;
  sourceOhm: number;
  /** One way, above 0. */
  xmaxM: number;
  filters: readonly PlannedFilter[];
  /** Equaliser bands of its channel; none where absent. */
  eq?: readonly PlannedBand[];
}

/** What bears heat and what feeds it. */
export interface Power {
  thermalW: number;
  /** Share of time at full level: 1 for a tone. */
  duty: number;
  /** The amplifier's clip voltage at this driver. */
  ampVrms: number;
}

const POINTS = 4000;

/** Frequencies from one to the other, evenly in the logarithm, both ends included. */
export function logSpaced(fromHz: number, toHz: number, points = POINTS): Float64Array {
  return Float64Array.from({ length: points }, (_, i) => fromHz * (toHz / fromHz) ** (i / (points - 1)));
}

/** What crossover and equaliser of a channel make of a level at `fHz`, dB; a boost is above 0. */
export function channelLevelDb({ filters, eq = [] }: Pick<DrivenDriver, 'filters' | 'eq'>, fHz: number): number {
  return filters.reduce((sum, filter) => sum + crossoverLevelDb(filter, fHz), bandsLevelDb(eq, fHz));
}

interface Strokes {
  box: Box;
  sourceOhm: number;
  fromHz: number;
  toHz: number;
  fHz: Float64Array;
  /** Of the cone at one volt RMS, dB re 1 m. */
  strokeDb: Float64Array;
}

/** Strokes do not depend on the filters: several high-passes of one driver share them. A driver is never changed. */
const strokesKnown = new WeakMap<Driver, Strokes>();

function strokesOf(
  { driver, box, sourceOhm }: Omit<DrivenDriver, 'filters'>,
  fromHz: number,
  toHz: number,
  points: number,
) {
  const known = strokesKnown.get(driver);
  const same = known !== undefined && known.box === box && known.sourceOhm === sourceOhm && known.fHz.length === points;
  if (same && known.fromHz === fromHz && known.toHz === toHz) return known;
  const motion = driverMotion(driver, box, sourceOhm);
  const fHz = logSpaced(fromHz, toHz, points);
  const strokeDb = fHz.map((f) => dbFromAmplitude(motion(f).xPeakM));
  const found: Strokes = { box, sourceOhm, fromHz, toHz, fHz, strokeDb };
  strokesKnown.set(driver, found);
  return found;
}

const thermalV = ({ driver }: DrivenDriver, { thermalW, duty }: Power) => Math.sqrt((thermalW * driver.reOhm) / duty);

/** Volts RMS at the terminals that one limit allows, and the smallest of them. */
function smallest(volts: Record<Limit, number>): [Limit, number][] {
  return (Object.entries(volts) as [Limit, number][]).sort(([, a], [, b]) => a - b);
}

/**
 * Ceiling of a steady tone at each frequency: the volts that may stand at the driver, and the level they make at 1 m.
 *
 * @param fHz  each above 0
 * Source: derivation: stroke per volt by `driverMotion`; heat is V^2 / Re over the duty.
 */
export function toneCeiling(driven: DrivenDriver, power: Power, fHz: readonly number[]) {
  const motion = driverMotion(driven.driver, driven.box, driven.sourceOhm);
  return fHz.map((freqHz) => {
    const { xPeakM, pressurePa } = motion(freqHz);
    const [[limit, volt]] = smallest({
      excursion: driven.xmaxM / xPeakM,
      thermal: thermalV(driven, power),
      // A boost asks for more than the amplifier has: it clips there first.
      amplifier: power.ampVrms * 10 ** (Math.min(0, channelLevelDb(driven, freqHz)) / 20),
    });
    return { freqHz, limit, volt, splDb: dbFromAmplitude(pressurePa / zeroDbPa) + dbFromAmplitude(volt) };
  });
}

/**
 * Which limit music meets first as one volume knob is turned up. The drive is told as the volts that a tone in the pass
 * band would put on the driver.
 *
 * @param fromHz,toHz  where the music has power, `fromHz` below `toHz`
 * @param points  that are looked at, evenly in the logarithm; 96 an octave at least
 */
export function bindingLimit(driven: DrivenDriver, power: Power, fromHz: number, toHz: number, points = POINTS) {
  const { fHz, strokeDb } = strokesOf(driven, fromHz, toHz, points);
  const xmaxDb = dbFromAmplitude(driven.xmaxM);
  // In decibels: far below a steep filter its share is too small for a number.
  let leastDb = Number.POSITIVE_INFINITY;
  let excursionFreqHz = fromHz;
  let mostDb = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < fHz.length; i++) {
    const db = channelLevelDb(driven, fHz[i]);
    mostDb = Math.max(mostDb, db);
    const driveDb = xmaxDb - strokeDb[i] - db;
    if (driveDb >= leastDb) continue;
    leastDb = driveDb;
    excursionFreqHz = fHz[i];
  }
  const excursionV = Math.min(Number.MAX_VALUE, 10 ** (leastDb / 20));
  const thermal = thermalV(driven, power) * 10 ** (-mostDb / 20);
  // Where a boost lifts the music, the amplifier clips that much earlier.
  const amplifierV = power.ampVrms * 10 ** (-Math.max(0, mostDb) / 20);
  const [[limit, driveV], [, nextV]] = smallest({ excursion: excursionV, thermal, amplifier: amplifierV });
  return {
    excursionV,
    excursionFreqHz,
    thermalV: thermal,
    amplifierV,
    limit,
    driveV,
    headroomToNextDb: dbFromAmplitude(nextV / driveV),
  };
}

/**
 * How far the cone moves at most, and where, with the amplifier at its clip voltage: behind a boost that is all it has.
 *
 * @param fromHz,toHz,points  as in `bindingLimit`
 */
export function strokeAtClip(
  driven: DrivenDriver,
  ampVrms: number,
  fromHz: number,
  toHz: number,
  points = POINTS,
): { worstFreqHz: number; xPeakM: number } {
  const { fHz, strokeDb } = strokesOf(driven, fromHz, toHz, points);
  let at = 0;
  let mostDb = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < fHz.length; i++) {
    const db = strokeDb[i] + Math.min(0, channelLevelDb(driven, fHz[i]));
    if (db <= mostDb) continue;
    mostDb = db;
    at = i;
  }
  return { worstFreqHz: fHz[at], xPeakM: ampVrms * 10 ** (mostDb / 20) };
}

const LOWEST_HZ = 5;
const HIGHEST_HZ = 20_000;
/** A corner to 1 part in 10^8. */
const HALVINGS = 30;

/**
 * Lowest high-pass at which the driver keeps within its stroke at the amplifier's clip voltage, from 5 Hz to 20 kHz.
 *
 * That is the floor by stroke alone: resonance and heat ask for more.
 *
 * @param ampVrms  the amplifier's clip voltage, not the level of today
 * @param points  that are looked at, as in `bindingLimit`
 * @returns `highPassHz` null where none is needed; with it the frequency at which the cone moves most, and how far.
 *   `no-solution` where not even 20 kHz is enough
 */
export function minHighPass(
  driven: Omit<DrivenDriver, 'filters'>,
  ampVrms: number,
  filter: Pick<PlannedFilter, 'family' | 'order'>,
  points = POINTS,
): Result<{ highPassHz: number | null; worstFreqHz: number; xPeakM: number }> {
  const { fHz, strokeDb: perVoltDb } = strokesOf(driven, LOWEST_HZ, HIGHEST_HZ, points);
  const ampDb = dbFromAmplitude(ampVrms);
  const strokeDb = perVoltDb.map((db) => db + ampDb);
  const boostDb = fHz.map((f) => bandsLevelDb(driven.eq ?? [], f));
  const worst = (hz: number | null) => {
    let at = 0;
    let mostDb = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < fHz.length; i++) {
      const passDb = hz === null ? 0 : crossoverLevelDb({ type: 'hp', hz, ...filter }, fHz[i]);
      const db = strokeDb[i] + Math.min(0, passDb + boostDb[i]);
      if (db <= mostDb) continue;
      mostDb = db;
      at = i;
    }
    return { worstFreqHz: fHz[at], xPeakM: 10 ** (mostDb / 20) };
  };
  const free = worst(null);
  if (free.xPeakM <= driven.xmaxM) return success({ highPassHz: null, ...free });
  if (worst(HIGHEST_HZ).xPeakM > driven.xmaxM) {
    const message = `At ${ampVrms} V no high-pass up to 20 kHz keeps this driver within its stroke.`;
    return refused('no-solution', 'ampVrms', message, 'Use a smaller amplifier, a limiter or another driver.');
  }
  // A filter adds nothing: only where the cone moves too far without one can it move too far behind it.
  const xmaxDb = dbFromAmplitude(driven.xmaxM);
  const tooFar = Array.from(fHz.keys()).filter((i) => strokeDb[i] > xmaxDb);
  const exceeds = (hz: number) =>
    tooFar.some((i) => {
      const passDb = crossoverLevelDb({ type: 'hp', hz, ...filter }, fHz[i]);
      return strokeDb[i] + Math.min(0, passDb + boostDb[i]) > xmaxDb;
    });
  let [lowHz, highHz] = [0.01, HIGHEST_HZ];
  for (let i = 0; i < HALVINGS; i++) {
    const middleHz = Math.sqrt(lowHz * highHz);
    if (exceeds(middleHz)) lowHz = middleHz;
    else highHz = middleHz;
  }
  return success({ highPassHz: highHz, ...worst(highHz) });
}
