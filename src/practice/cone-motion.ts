// The driver solved in time: coil current and cone with stroke-dependent force factor, stiffness and inductance.
import type { SimulatedDriver } from './driver.ts';

/** Rounds of the implicit step; the stroke at its end is known to second order before the first of them. */
const ROUNDS = 2;

/**
 * Cone acceleration, m/s2, for a voltage across the driver's terminals.
 *
 * States: flux linkage Le(x) i, velocity v, displacement x:
 *   d(Le i)/dt = V - R i - Bl v,  M dv/dt = Bl i + i^2 Le'(x) / 2 - Rm v - K x,  dx/dt = v
 * by the trapezoidal rule, so that for small signals the result is exactly the bilinear transform of the analogue driver.
 *
 * @param driver  SI units
 * @param volts   length N; not changed
 * @param rateHz  rate of `volts`; strokes are resolved well when it is far above the driver's band
 * @returns length N
 * @throws RangeError  a cone driven so hard that the numbers leave the finite
 * Source: W. Klippel, Loudspeaker nonlinearities: causes, parameters, symptoms, J. Audio Eng. Soc. 54(10), 2006.
 */
export function coneAcceleration(driver: SimulatedDriver, volts: Float64Array, rateHz: number): Float64Array {
  const { resistanceOhm, inductanceH, bl, massKg, lossKgPerS, stiffnessNPerM, xMaxM } = driver;
  const { blTilt, blFall2, blFall4, kTilt, kRise2, kRise4, leTilt } = driver.stroke;
  const half = 0.5 / rateHz;
  const out = new Float64Array(volts.length);
  let x = 0;
  let v = 0;
  let flux = 0;
  let current = 0;
  let acceleration = 0;
  let fluxRate = 0;
  for (let n = 0; n < volts.length; n++) {
    const u = volts[n];
    let xNew = x + 2 * half * (v + half * acceleration);
    let vNew = v;
    let force = 0;
    let force1 = 0;
    let inductance = inductanceH;
    for (let round = 0; round < ROUNDS; round++) {
      const xi = xNew / xMaxM;
      const xi2 = xi * xi;
      const rootInverse = 1 / Math.sqrt(1 + xi2);
      force1 = (bl * (1 + blTilt * xi)) / (1 + blFall2 * xi2 + blFall4 * xi2 * xi2);
      inductance = inductanceH * (1 + leTilt * xi * rootInverse);
      const stiffness = stiffnessNPerM * (1 + kTilt * xi + kRise2 * xi2 + kRise4 * xi2 * xi2);
      const pull = (0.5 * current * current * inductanceH * leTilt * rootInverse * rootInverse * rootInverse) / xMaxM;
      // i = iBase - iSlope v from the coil, then v from the cone: two linear equations solved by substitution.
      const iBase = (flux + half * (fluxRate + u)) / (inductance + half * resistanceOhm);
      const iSlope = (half * force1) / (inductance + half * resistanceOhm);
      const vBase = v + half * (acceleration + (force1 * iBase + pull - stiffness * (x + half * v)) / massKg);
      vNew = vBase / (1 + (half * (force1 * iSlope + lossKgPerS + half * stiffness)) / massKg);
      current = iBase - iSlope * vNew;
      xNew = x + half * (v + vNew);
      force = force1 * current + pull - lossKgPerS * vNew - stiffness * xNew;
    }
    fluxRate = u - resistanceOhm * current - force1 * vNew;
    flux = inductance * current;
    x = xNew;
    v = vNew;
    acceleration = force / massKg;
    out[n] = acceleration;
  }
  if (!Number.isFinite(acceleration)) throw new RangeError('volts drive the cone beyond what can be solved');
  return out;
}
