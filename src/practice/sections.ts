// Second-order filter sections: designed by the bilinear transform, run in the time domain, evaluated as formulas.
import { type Complex, ONE, product, quotient } from './complex.ts';

/** `(b0 + b1 z + b2 z^2) / (1 + a1 z + a2 z^2)` with z = one sample of delay. */
export interface Section {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

type Quadratic = readonly [number, number, number];

/**
 * Section of an analogue transfer function, exact at `fHz`.
 *
 * @param numerator,denominator  `[constant, p, p^2]` in p = s / (2 pi fHz)
 * @param fHz     0 < fHz < rateHz / 2
 * @param rateHz  rate at which the section runs
 * Source: bilinear transform with the frequency pre-warped (Oppenheim & Schafer, Discrete-Time Signal Processing).
 */
export function sectionFromAnalogue(
  numerator: Quadratic,
  denominator: Quadratic,
  fHz: number,
  rateHz: number,
): Section {
  const g = 1 / Math.tan((Math.PI * fHz) / rateHz);
  const digital = ([c0, c1, c2]: Quadratic) => [
    c0 + c1 * g + c2 * g * g,
    2 * (c0 - c2 * g * g),
    c0 - c1 * g + c2 * g * g,
  ];
  const b = digital(numerator);
  const a = digital(denominator);
  return { b0: b[0] / a[0], b1: b[1] / a[0], b2: b[2] / a[0], a1: a[1] / a[0], a2: a[2] / a[0] };
}

export const lowPass2 = (fHz: number, q: number, rateHz: number): Section =>
  sectionFromAnalogue([1, 0, 0], [1, 1 / q, 1], fHz, rateHz);
export const highPass2 = (fHz: number, q: number, rateHz: number): Section =>
  sectionFromAnalogue([0, 0, 1], [1, 1 / q, 1], fHz, rateHz);
export const lowPass1 = (fHz: number, rateHz: number): Section =>
  sectionFromAnalogue([1, 0, 0], [1, 1, 0], fHz, rateHz);
export const highPass1 = (fHz: number, rateHz: number): Section =>
  sectionFromAnalogue([0, 1, 0], [1, 1, 0], fHz, rateHz);
/** 0 dB at `fHz`. */
export const bandPass2 = (fHz: number, q: number, rateHz: number): Section =>
  sectionFromAnalogue([0, 1 / q, 0], [1, 1 / q, 1], fHz, rateHz);
/** Phase -180 degrees at `fHz`, magnitude 1 everywhere. */
export const allPass2 = (fHz: number, q: number, rateHz: number): Section =>
  sectionFromAnalogue([1, -1 / q, 1], [1, 1 / q, 1], fHz, rateHz);
/** `gainDb` at `fHz`, 0 dB far away. */
export function peaking2(fHz: number, q: number, gainDb: number, rateHz: number): Section {
  const a = 10 ** (gainDb / 40);
  return sectionFromAnalogue([1, a / q, 1], [1, 1 / (a * q), 1], fHz, rateHz);
}
/** 0 dB far below `fHz`, `gainDb` far above, first order. */
export function highShelf1(fHz: number, gainDb: number, rateHz: number): Section {
  const root = 10 ** (gainDb / 40);
  return sectionFromAnalogue([1, root, 0], [1, 1 / root, 0], fHz, rateHz);
}

/** The signal after all sections (transposed direct form II); a new array of the same length. */
export function filtered(sections: readonly Section[], signal: Float64Array): Float64Array {
  const out = Float64Array.from(signal);
  for (const { b0, b1, b2, a1, a2 } of sections) {
    let z1 = 0;
    let z2 = 0;
    for (let n = 0; n < out.length; n++) {
      const x = out[n];
      const y = b0 * x + z1;
      z1 = b1 * x - a1 * y + z2;
      z2 = b2 * x - a2 * y;
      out[n] = y;
    }
  }
  return out;
}

/** Complex response of all sections at `fHz` when they run at `rateHz`. */
export function sectionsResponse(sections: readonly Section[], fHz: number, rateHz: number): Complex {
  const w = (2 * Math.PI * fHz) / rateHz;
  const z = { re: Math.cos(w), im: -Math.sin(w) };
  const z2 = { re: Math.cos(2 * w), im: -Math.sin(2 * w) };
  let value = ONE;
  for (const { b0, b1, b2, a1, a2 } of sections) {
    const top = { re: b0 + b1 * z.re + b2 * z2.re, im: b1 * z.im + b2 * z2.im };
    const bottom = { re: 1 + a1 * z.re + a2 * z2.re, im: a1 * z.im + a2 * z2.im };
    value = product(value, quotient(top, bottom));
  }
  return value;
}
