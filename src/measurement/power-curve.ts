// A power spectrum that can be averaged between any two frequencies.
import type { Spectrum } from '../signals/fft.ts';

/** Power over linear bins with its running integral. */
export interface PowerCurve {
  binHz: number;
  power: Float64Array;
  /** Integral of the piecewise linear power from bin 0 to each bin, in bins. */
  integral: Float64Array;
}

/**
 * Squared magnitude of a spectrum whose bins lie `binHz` apart.
 *
 * @param group  bins that become one, their mean: for a spectrum that is smooth anyway
 */
export function powerCurve({ re, im }: Spectrum, binHz: number, group = 1): PowerCurve {
  const power = new Float64Array(Math.floor((re.length - 1) / group) + 1);
  const integral = new Float64Array(power.length);
  for (let k = 0; k < power.length; k++) {
    const from = Math.max(0, Math.ceil((k - 0.5) * group));
    const to = Math.min(re.length, Math.ceil((k + 0.5) * group));
    for (let n = from; n < to; n++) power[k] += re[n] * re[n] + im[n] * im[n];
    power[k] /= to - from;
    if (k > 0) integral[k] = integral[k - 1] + 0.5 * (power[k] + power[k - 1]);
  }
  return { binHz: binHz * group, power, integral };
}

function integralTo(curve: PowerCurve, bin: number): number {
  const last = curve.power.length - 1;
  const at = Math.min(Math.max(bin, 0), last);
  const whole = Math.min(Math.floor(at), last - 1);
  const part = at - whole;
  const slope = curve.power[whole + 1] - curve.power[whole];
  return curve.integral[whole] + part * (curve.power[whole] + 0.5 * part * slope);
}

/** Mean of the piecewise linear power over `octaves` about `fHz`; the interpolated power itself when `octaves` is 0. */
export function meanPower(curve: PowerCurve, fHz: number, octaves: number): number {
  const low = (fHz * 2 ** (-octaves / 2)) / curve.binHz;
  const high = (fHz * 2 ** (octaves / 2)) / curve.binHz;
  if (high - low > 1e-6) return (integralTo(curve, high) - integralTo(curve, low)) / (high - low);
  const at = Math.min(fHz / curve.binHz, curve.power.length - 1);
  const whole = Math.min(Math.floor(at), curve.power.length - 2);
  return curve.power[whole] + (at - whole) * (curve.power[whole + 1] - curve.power[whole]);
}
