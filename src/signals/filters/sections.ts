// Second-order sections: the one form in which every filter of a channel is held, evaluated and run.
import { assertRange } from '../../base/assert.ts';

/** (b0 + b1 z^-1 + b2 z^-2) / (1 + a1 z^-1 + a2 z^-2); a first-order section has b2 = a2 = 0. */
export interface Section {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/** Analog low-pass, fc = 1: 1 / (1 + s / (w0 q) + (s / w0)^2), or 1 / (1 + s / w0) where there is no q. */
export interface AnalogSection {
  readonly w0: number;
  readonly q: number | null;
}

/** A complex value per frequency, in two arrays of equal length. */
export interface ComplexResponse {
  re: Float64Array;
  im: Float64Array;
}

/** Level reported where a response is exactly zero, dB (a notch at its own frequency). */
export const LEVEL_FLOOR_DB = -400;

/** Throws RangeError unless every coefficient is finite and both poles lie inside the unit circle. */
export function assertStable(sections: readonly Section[]): void {
  for (let i = 0; i < sections.length; i++) {
    const { b0, b1, b2, a1, a2 } = sections[i];
    const stable = Math.abs(a2) < 1 && Math.abs(a1) < 1 + a2;
    if (!stable || !Number.isFinite(b0 + b1 + b2)) {
      throw new RangeError(`section ${i} must be finite and stable, got b ${b0}, ${b1}, ${b2}, a ${a1}, ${a2}`);
    }
  }
}

/**
 * Complex response of sections in series at given frequencies.
 *
 * Numerator and denominator are both turned by exp(jw), which leaves (b0 + b1 + b2) - 2 (b0 + b2) sin^2(w/2)
 * + j (b0 - b2) sin w: nothing close to 1 is subtracted from 1, so 20 Hz at 192 kHz is as good as 10 kHz.
 *
 * @param sections  in any order and grouping; none gives 1 everywhere
 * @param fHz       0 .. rateHz / 2, any order; not changed
 * @param rateHz    1 .. 1 000 000
 * @returns output over input, as long as fHz
 * @throws RangeError  a frequency or rate outside its range, an unstable section
 * Accuracy: 1e-9 of the largest value (test/vectors/filters.json, written to ten digits)
 * Source: derivation above; A. V. Oppenheim, R. W. Schafer, Discrete-Time Signal Processing, 3rd ed. 2010, section 6.3.
 * @example sectionsResponse([{ b0: 0.5, b1: 0.5, b2: 0, a1: 0, a2: 0 }], [0, 24000], 48000).re // 1, 0
 */
export function sectionsResponse(
  sections: readonly Section[],
  fHz: ArrayLike<number>,
  rateHz: number,
): ComplexResponse {
  assertRange('rateHz', rateHz, 1, 1e6);
  assertStable(sections);
  const re = new Float64Array(fHz.length).fill(1);
  const im = new Float64Array(fHz.length);
  for (let i = 0; i < fHz.length; i++) {
    const f = fHz[i];
    assertRange('fHz', f, 0, rateHz / 2);
    const halfSine = Math.sin((Math.PI * f) / rateHz);
    const versine = 2 * halfSine * halfSine;
    const sine = Math.sin((2 * Math.PI * f) / rateHz);
    let hr = 1;
    let hi = 0;
    for (let s = 0; s < sections.length; s++) {
      const { b0, b1, b2, a1, a2 } = sections[s];
      const nr = b0 + b2 + b1 - (b0 + b2) * versine;
      const ni = (b0 - b2) * sine;
      const dr = 1 + a2 + a1 - (1 + a2) * versine;
      const di = (1 - a2) * sine;
      const scale = 1 / (dr * dr + di * di);
      const qr = (nr * dr + ni * di) * scale;
      const qi = (ni * dr - nr * di) * scale;
      const r = hr * qr - hi * qi;
      hi = hr * qi + hi * qr;
      hr = r;
    }
    re[i] = hr;
    im[i] = hi;
  }
  return { re, im };
}

/**
 * Level of sections in series, dB re input, never below `LEVEL_FLOOR_DB`.
 *
 * Arguments and errors as for `sectionsResponse`.
 */
export function sectionsLevelDb(sections: readonly Section[], fHz: ArrayLike<number>, rateHz: number): Float64Array {
  const { re, im } = sectionsResponse(sections, fHz, rateHz);
  for (let i = 0; i < re.length; i++) {
    re[i] = Math.max(LEVEL_FLOOR_DB, 20 * Math.log10(Math.hypot(re[i], im[i])));
  }
  return re;
}
