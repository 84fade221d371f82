// Crossovers: high- and low-passes of the usual families, as a processor runs them and as theory draws them.
import { assertRange } from '../../base/assert.ts';
import { type Crossover, crossoverPrototype } from './prototype.ts';
import type { ComplexResponse, Section } from './sections.ts';

export type { Crossover } from './prototype.ts';
export { CROSSOVER_ORDERS } from './prototype.ts';

/** Which part of the sound passes. */
export type PassKind = 'low-pass' | 'high-pass';

function assertPassKind(kind: PassKind): void {
  if (kind !== 'low-pass' && kind !== 'high-pass') {
    throw new RangeError(`kind must be low-pass or high-pass, got ${String(kind)}`);
  }
}

/**
 * Digital sections of a crossover, exact at its own frequency.
 *
 * Bilinear transform, pre-warped at fHz with the same constant for all sections. Towards rateHz / 2 the low-pass falls
 * faster than the analog one (it is zero there): more than 0.5 dB above about rateHz / 5.
 *
 * @param crossover  fHz 1e-6 .. 0.499 of rateHz; orders as in CROSSOVER_ORDERS
 * @param rateHz     1 .. 1 000 000
 * @returns ceil(order / 2) sections, gain 1 in the pass band
 * @throws RangeError  whatever is outside its range or does not exist
 * Accuracy: 1e-9 against an independent design (test/vectors/filters.json)
 * Source: A. V. Oppenheim, R. W. Schafer, Discrete-Time Signal Processing, 3rd ed. 2010, section 7.2.2.
 * @example crossoverSections({ family: 'linkwitz-riley', order: 4, fHz: 80 }, 'high-pass', 48000) // two equal sections
 */
export function crossoverSections(crossover: Crossover, kind: PassKind, rateHz: number): Section[] {
  assertPassKind(kind);
  assertRange('rateHz', rateHz, 1, 1e6);
  assertRange('crossover fHz', crossover.fHz, 1e-6 * rateHz, 0.499 * rateHz);
  const warped = Math.tan((Math.PI * crossover.fHz) / rateHz);
  const low = kind === 'low-pass';
  return crossoverPrototype(crossover).map(({ w0, q }) => {
    const k = low ? warped * w0 : warped / w0;
    if (q === null) {
      const a0 = 1 + k;
      const b0 = (low ? k : 1) / a0;
      return { b0, b1: low ? b0 : -b0, b2: 0, a1: (k - 1) / a0, a2: 0 };
    }
    const a0 = 1 + k / q + k * k;
    const b0 = (low ? k * k : 1) / a0;
    return { b0, b1: low ? 2 * b0 : -2 * b0, b2: b0, a1: (2 * (k * k - 1)) / a0, a2: (1 - k / q + k * k) / a0 };
  });
}

/**
 * Complex response of the analog crossover: what the digital one imitates, without a sample rate.
 *
 * Low-pass section 1 / (1 + s / (w0 q) + (s / w0)^2) with s = j f / fHz; the high-pass takes 1/s for s.
 *
 * @param crossover  fHz 0.001 .. 1 000 000
 * @param fHz        0 .. 1e9, any order; not changed
 * @returns output over input, as long as fHz; 0 for a high-pass at 0 Hz
 * @throws RangeError  whatever is outside its range or does not exist
 * Accuracy: 1e-9 (test/vectors/filters.json)
 */
export function analogCrossoverResponse(crossover: Crossover, kind: PassKind, fHz: ArrayLike<number>): ComplexResponse {
  assertPassKind(kind);
  assertRange('crossover fHz', crossover.fHz, 1e-3, 1e6);
  const low = kind === 'low-pass';
  const prototype = crossoverPrototype(crossover);
  const re = new Float64Array(fHz.length);
  const im = new Float64Array(fHz.length);
  for (let i = 0; i < fHz.length; i++) {
    assertRange('fHz', fHz[i], 0, 1e9);
    const x = fHz[i] / crossover.fHz;
    let hr = 1;
    let hi = 0;
    for (const { w0, q } of prototype) {
      // With v = w / w0 of the mirrored frequency, the high-pass is -v^2 / (1 - v^2 + j v / q): nothing divides by f.
      const v = low ? x / w0 : x * w0;
      let dr = 1;
      let di = v;
      let nr = 1;
      let ni = 0;
      if (q === null) {
        if (!low) [nr, ni] = [0, v];
      } else {
        dr = 1 - v * v;
        di = v / q;
        if (!low) nr = -v * v;
      }
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
