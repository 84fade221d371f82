// A simulated loudspeaker: its parameters, what follows from them, and its small-signal response as a formula.
import { bilinearS, type Complex, complex, polynomial, product, quotient, scaled } from './complex.ts';
import { lowPass2, peaking2, type Section, sectionsResponse } from './sections.ts';

/** How force factor, stiffness and inductance change with the stroke; xi = x / xMaxM. All 0: a linear driver. */
export interface StrokeLaw {
  /** Bl = bl (1 + blTilt xi) / (1 + blFall2 xi^2 + blFall4 xi^4). */
  blTilt: number;
  blFall2: number;
  blFall4: number;
  /** K = k (1 + kTilt xi + kRise2 xi^2 + kRise4 xi^4). */
  kTilt: number;
  kRise2: number;
  kRise4: number;
  /** Le = le (1 + leTilt xi / sqrt(1 + xi^2)). */
  leTilt: number;
}

/** One driver in its box; SI units. Stiffness holds the air behind the cone too. */
export interface SimulatedDriver {
  resistanceOhm: number;
  inductanceH: number;
  /** Force factor at rest, T m. */
  bl: number;
  massKg: number;
  lossKgPerS: number;
  stiffnessNPerM: number;
  coneAreaM2: number;
  xMaxM: number;
  stroke: StrokeLaw;
  /** Where the cone stops moving as a whole: second-order low-pass at this frequency. */
  breakupHz: number;
  breakupQ: number;
  /** Peaks and dips of the cone and its surroundings. */
  bumps: readonly { fHz: number; q: number; gainDb: number }[];
}

export const LINEAR_STROKE: StrokeLaw = {
  blTilt: 0,
  blFall2: 0,
  blFall4: 0,
  kTilt: 0,
  kRise2: 0,
  kRise4: 0,
  leTilt: 0,
};

/** What a datasheet says of a driver in its box. */
export interface DriverSheet {
  resonanceHz: number;
  totalQ: number;
  mechanicalQ: number;
  resistanceOhm: number;
  inductanceH: number;
  massKg: number;
  coneAreaM2: number;
  xMaxM: number;
}

/**
 * Electromechanical constants from a sheet.
 *
 * Source: R. H. Small, Direct-radiator loudspeaker system analysis, J. Audio Eng. Soc. 20(5), 1972.
 */
export function driverFromSheet(
  sheet: DriverSheet,
  rest: Pick<SimulatedDriver, 'stroke' | 'breakupHz' | 'breakupQ' | 'bumps'>,
): SimulatedDriver {
  const w = 2 * Math.PI * sheet.resonanceHz;
  const electricalQ = (sheet.totalQ * sheet.mechanicalQ) / (sheet.mechanicalQ - sheet.totalQ);
  return {
    resistanceOhm: sheet.resistanceOhm,
    inductanceH: sheet.inductanceH,
    bl: Math.sqrt((w * sheet.massKg * sheet.resistanceOhm) / electricalQ),
    massKg: sheet.massKg,
    lossKgPerS: (w * sheet.massKg) / sheet.mechanicalQ,
    stiffnessNPerM: w * w * sheet.massKg,
    coneAreaM2: sheet.coneAreaM2,
    xMaxM: sheet.xMaxM,
    ...rest,
  };
}

const AIR_DENSITY = 1.204;

/** Pascal at 1 m (half space) for one m/s2 of cone acceleration: rho S / (2 pi r). */
export function pascalPerAcceleration(driver: SimulatedDriver): number {
  return (AIR_DENSITY * driver.coneAreaM2) / (2 * Math.PI);
}

/** Filters between the moving coil and the air. */
export function radiationSections(driver: SimulatedDriver, rateHz: number): Section[] {
  return [
    lowPass2(driver.breakupHz, driver.breakupQ, rateHz),
    ...driver.bumps.map(({ fHz, q, gainDb }) => peaking2(fHz, q, gainDb, rateHz)),
  ];
}

/** Cone acceleration for one volt at a complex frequency, m/s2 per V: the third-order system solved by hand. */
function accelerationPerVolt(driver: SimulatedDriver, s: Complex): Complex {
  const { resistanceOhm: re, inductanceH: le, bl, massKg: m, lossKgPerS: r, stiffnessNPerM: k } = driver;
  const bottom = polynomial([re * k, re * r + le * k + bl * bl, re * m + le * r, le * m], s);
  return quotient(scaled(product(s, s), bl), bottom);
}

/**
 * Pressure at 1 m for one volt at `fHz`, Pa per V, small signal, of the driver solved at `rateHz` by the trapezoidal rule.
 *
 * Source: R. H. Small 1972 (equivalent circuit), with the coil's inductance kept.
 */
export function driverResponse(driver: SimulatedDriver, fHz: number, rateHz: number): Complex {
  const moved = accelerationPerVolt(driver, bilinearS(fHz, rateHz));
  const radiated = sectionsResponse(radiationSections(driver, rateHz), fHz, rateHz);
  return product(scaled(moved, pascalPerAcceleration(driver)), radiated);
}

/** Peak stroke for one volt of peak at `fHz`, m: the acceleration twice integrated. */
export function strokePerVolt(driver: SimulatedDriver, fHz: number): number {
  const w = 2 * Math.PI * fHz;
  const a = accelerationPerVolt(driver, complex(0, w));
  return Math.hypot(a.re, a.im) / (w * w);
}
