// From volts to movement and sound, at one frequency.
import { dbFromAmplitude } from '../base/decibel.ts';
import { airKgPerM3, zeroDbPa } from './air.ts';
import { type Box, boxCircuit } from './box.ts';
import { type Driver, deriveDriver } from './driver.ts';

/** What one volt RMS does; RMS values unless said. */
export interface PerVolt {
  pressurePa: number;
  /** Cone, peak, m. */
  xPeakM: number;
  /** Air through the port, m3/s; 0 without a port. */
  portFlowM3PerS: number;
  /** What the amplifier sees, `sourceOhm` included. */
  impedanceOhm: number;
}

/**
 * Makes the forecast of a driver in a box: half space, 1 m, on axis, small signal. Good up to about c / (pi * cone
 * diameter): 1.1 kHz for a cone of 100 mm, 440 Hz for 250 mm. Limits live in `limits.ts`.
 *
 * @param sourceOhm resistance between amplifier and coil, 0 or more
 * @returns a function of frequency above 0, Hz
 * Source: L. L. Beranek, Acoustics, 1954, chapters 3 and 8 (electrodynamic analogy); coil losses: W. M. Leach, J. Audio
 * Eng. Soc. 50(6), 2002, 442-450.
 */
export function driverMotion(driver: Driver, box: Box, sourceOhm: number): (fHz: number) => PerVolt {
  const { cmsMPerN, rmsKgPerS, blTm } = deriveDriver(driver);
  const { reOhm, sdM2, mmsKg, coil } = driver;
  const { airM3PerPa, leak, portPerMass, rearPaPerM3 } = boxCircuit(box);
  const hasBox = airM3PerPa > 0;
  const bl2 = blTm * blTm;
  return (fHz) => {
    const w = 2 * Math.PI * fHz;
    const lossy = 'k' in coil ? coil.k * w ** coil.n : 0;
    const turn = 'n' in coil ? (coil.n * Math.PI) / 2 : 0;
    const coilRe = reOhm + sourceOhm + lossy * Math.cos(turn);
    const coilIm = 'leH' in coil ? w * coil.leH : lossy * Math.sin(turn);

    const flowIm = w * airM3PerPa - portPerMass / w;
    const flow2 = leak * leak + flowIm * flowIm;
    const boxRe = hasBox ? leak / flow2 : 0;
    const boxIm = (hasBox ? -flowIm / flow2 : 0) - rearPaPerM3 / w;
    const moveRe = rmsKgPerS + sdM2 * sdM2 * boxRe;
    const moveIm = w * mmsKg - 1 / (w * cmsMPerN) + sdM2 * sdM2 * boxIm;

    const wholeRe = coilRe * moveRe - coilIm * moveIm + bl2;
    const wholeIm = coilRe * moveIm + coilIm * moveRe;
    const whole = Math.hypot(wholeRe, wholeIm);
    const velocity = blTm / whole;
    const boxPa = hasBox ? (sdM2 * velocity) / Math.sqrt(flow2) : 0;
    const portFlowM3PerS = (boxPa * portPerMass) / w;
    const radiated =
      box.kind === 'bandpass4'
        ? portFlowM3PerS
        : leak > 0 || portPerMass > 0
          ? boxPa * w * airM3PerPa
          : sdM2 * velocity;
    return {
      pressurePa: (airKgPerM3 * w * radiated) / (2 * Math.PI),
      xPeakM: (Math.SQRT2 * velocity) / w,
      portFlowM3PerS,
      impedanceOhm: whole / Math.hypot(moveRe, moveIm),
    };
  };
}

/** A driver in its box at one frequency and voltage. */
export interface DriverResponse {
  splDb: number;
  /** One way. */
  xPeakMm: number;
  impedanceOhm: number;
  /** RMS. */
  currentA: number;
  /** Air in the port, peak: 17 quiet, 25 usual, above 30 noise; null where there is no port or its area is not known. */
  portPeakMps: number | null;
}

/**
 * The forecast at one frequency; see `driverMotion` for what it covers.
 *
 * @param voltRms above 0, from the amplifier
 */
export function driverResponse(
  driver: Driver,
  box: Box,
  sourceOhm: number,
  fHz: number,
  voltRms: number,
): DriverResponse {
  const { pressurePa, xPeakM, portFlowM3PerS, impedanceOhm } = driverMotion(driver, box, sourceOhm)(fHz);
  const portAreaM2 = 'portAreaM2' in box ? box.portAreaM2 : undefined;
  return {
    splDb: dbFromAmplitude(pressurePa / zeroDbPa) + dbFromAmplitude(voltRms),
    xPeakMm: 1000 * xPeakM * voltRms,
    impedanceOhm,
    currentA: voltRms / impedanceOhm,
    portPeakMps: portAreaM2 === undefined ? null : (Math.SQRT2 * portFlowM3PerS * voltRms) / portAreaM2,
  };
}
