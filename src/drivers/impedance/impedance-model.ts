// The impedance of a driver in free air as a formula of six numbers.

/** One resonance and a lossy coil. All above 0; `semiN` 0.3 to 1. */
export interface ImpedanceModel {
  /** Coil, direct current, with its leads. */
  reOhm: number;
  fsHz: number;
  qms: number;
  /** Height of the peak over `reOhm`. */
  peakOhm: number;
  /** The coil as K (j w)^n, ohm s^n. */
  semiK: number;
  semiN: number;
}

export interface Complex {
  re: number;
  im: number;
}

/** How far above the resonance the coil's formula is trusted, times. */
export const FIT_UP_TO = 20;

export const sizeOf = ({ re, im }: Complex) => Math.hypot(re, im);

/**
 * Impedance of a driver at one frequency, ohm.
 *
 * Source: R. H. Small, J. Audio Eng. Soc. 20(5), 1972, 383-395 (motional peak); W. M. Leach, J. Audio Eng. Soc. 50(6),
 * 2002, 442-450 (coil with losses).
 */
export function modelImpedance({ reOhm, fsHz, qms, peakOhm, semiK, semiN }: ImpedanceModel, fHz: number): Complex {
  const turn = qms * (fHz / fsHz - fsHz / fHz);
  const share = 1 / (1 + turn * turn);
  const coil = semiK * (2 * Math.PI * fHz) ** semiN;
  const angle = (semiN * Math.PI) / 2;
  return {
    re: reOhm + coil * Math.cos(angle) + peakOhm * share,
    im: coil * Math.sin(angle) - peakOhm * share * turn,
  };
}

/** What a divider of `seriesOhm` and `z` passes on, turned by a delay of `delayS`. */
export function dividerOf(z: Complex, seriesOhm: number, fHz: number, delayS: number): Complex {
  const whole = (z.re + seriesOhm) ** 2 + z.im ** 2;
  const re = (z.re * (z.re + seriesOhm) + z.im * z.im) / whole;
  const im = (z.im * seriesOhm) / whole;
  const angle = -2 * Math.PI * fHz * delayS;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return { re: re * c - im * s, im: re * s + im * c };
}

/** The impedance that makes a divider of `seriesOhm` pass on `ratio`. */
export function impedanceOf(ratio: Complex, seriesOhm: number): Complex {
  const left = (1 - ratio.re) ** 2 + ratio.im ** 2;
  return {
    re: (seriesOhm * (ratio.re * (1 - ratio.re) - ratio.im * ratio.im)) / left,
    im: (seriesOhm * ratio.im) / left,
  };
}
