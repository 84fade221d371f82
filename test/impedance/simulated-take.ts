// A driver behind a resistor, computed as currents, forces and movement in time: it knows nothing of Qs or spectra.
import { gauss } from '../../src/base/random.ts';

/** A driver by its parts: resistance, coil, motor, mass, suspension. */
export interface DriverParts {
  reOhm: number;
  leH: number;
  blTm: number;
  mmsKg: number;
  rmsKgPerS: number;
  cmsMPerN: number;
}

/** 6.5 inch, 3.3 ohm: 62.1 Hz, Qms 5.46, Qes 0.66 by the definitions of these. */
export const woofer: DriverParts = {
  reOhm: 3.3,
  leH: 0.4e-3,
  blTm: 5.2,
  mmsKg: 0.014,
  rmsKgPerS: 1,
  cmsMPerN: 0.00047,
};

/** What a text book defines these parts to mean. */
export function definedBy({ reOhm, blTm, mmsKg, rmsKgPerS, cmsMPerN }: DriverParts) {
  const w = 1 / Math.sqrt(mmsKg * cmsMPerN);
  const [qms, qes] = [(w * mmsKg) / rmsKgPerS, (w * mmsKg * reOhm) / blTm ** 2];
  return { fsHz: w / (2 * Math.PI), qms, qes, qts: (qms * qes) / (qms + qes) };
}

export interface Bench {
  driver: DriverParts;
  seriesOhm: number;
  leadOhm?: number;
  rateHz?: number;
  seconds?: number;
  fromHz?: number;
  toHz?: number;
  /** Silence before the sweep. */
  waitS?: number;
  /** RMS of the noise of each input against the sweep's peak. */
  noise?: number;
  /** A hum of the mains on the input at the driver, peak. */
  hum?: number;
  /** Gain of the input at the driver against the other. */
  gain?: number;
  seed?: number;
  /** A box with a port behind the cone. */
  vented?: { sdM2: number; volumeM3: number; portHz: number };
  /** Nothing hangs on the clips. */
  unplugged?: boolean;
}

const STEPS = 5;

/** Both voltages, recorded while a sweep of 1 V plays. */
export function simulatedTake(bench: Bench): { sourceV: Float64Array; driverV: Float64Array; rateHz: number } {
  const { driver, seriesOhm, leadOhm = 0, rateHz = 48_000, seconds = 5, fromHz = 10, toHz = 20_000 } = bench;
  const { waitS = 0.3, noise = 0, hum = 0, gain = 1, seed = 1, vented, unplugged = false } = bench;
  const { reOhm, leH, blTm, mmsKg, rmsKgPerS, cmsMPerN } = driver;
  const constantS = seconds / Math.log(toHz / fromHz);
  const played = (t: number) =>
    t < 0 || t > seconds ? 0 : 0.5 * Math.sin(2 * Math.PI * fromHz * constantS * Math.expm1(t / constantS));
  const frames = Math.round((seconds + waitS + 0.5) * rateHz);
  const sourceV = new Float64Array(frames);
  const driverV = new Float64Array(frames);
  const wholeOhm = seriesOhm + leadOhm + reOhm;
  const [slope, middle, state] = [new Float64Array(5), new Float64Array(5), new Float64Array(5)];
  const sdM2 = vented?.sdM2 ?? 0;
  const airM3PerPa = vented === undefined ? 1 : vented.volumeM3 / (1.204 * 343.2 ** 2);
  const portPerMass = vented === undefined ? 0 : (2 * Math.PI * vented.portHz) ** 2 * airM3PerPa;
  // A tight box: its losses hold the port's Q near 15.
  const leak = vented === undefined ? 0 : (2 * Math.PI * vented.portHz * airM3PerPa) / 15;
  const change = ([current, speed, place, pressure, flow]: Float64Array, volt: number) => {
    slope[0] = (volt - wholeOhm * current - blTm * speed) / leH;
    slope[1] = (blTm * current - rmsKgPerS * speed - place / cmsMPerN - sdM2 * pressure) / mmsKg;
    slope[2] = speed;
    slope[3] = (sdM2 * speed - flow - leak * pressure) / airM3PerPa;
    slope[4] = portPerMass * pressure;
  };
  const sum = new Float64Array(5);
  const h = 1 / (rateHz * STEPS);
  for (let n = 0; n < frames; n++) {
    const t = n / rateHz - waitS;
    sourceV[n] = played(t) + noise * gauss(seed, n);
    const clean = played(t) - (unplugged ? 0 : seriesOhm * state[0]);
    driverV[n] = gain * clean + hum * Math.sin((2 * Math.PI * 50 * n) / rateHz) + noise * gauss(seed + 1, n);
    for (let step = 0; step < STEPS && t > -0.01; step++) {
      // Runge and Kutta, fourth order.
      const at = t + step * h;
      sum.fill(0);
      change(state, played(at));
      for (const [share, weight, later] of [
        [0.5, 1, h / 2],
        [0.5, 2, h / 2],
        [1, 2, h],
        [0, 1, h],
      ]) {
        for (let i = 0; i < 5; i++) {
          sum[i] += weight * slope[i];
          middle[i] = state[i] + share * h * slope[i];
        }
        if (share > 0) change(middle, played(at + later));
      }
      for (let i = 0; i < 5; i++) state[i] += (h / 6) * sum[i];
    }
  }
  return { sourceV, driverV, rateHz };
}
