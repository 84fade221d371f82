// Bessel low-pass prototypes, computed rather than tabled: tables in print carry four digits, we need all of them.
import type { AnalogSection } from './sections.ts';

/** What fc means for a Bessel filter: where it is 3.01 dB down, or the middle of its phase. */
export type BesselNormalisation = 'magnitude' | 'phase';

interface Complex {
  re: number;
  im: number;
}

/**
 * Coefficients, lowest power first, of the reverse Bessel polynomial scaled so that both its ends are 1.
 *
 * theta_n(s) = sum (2n - k)! / (2^(n-k) k! (n-k)!) s^k; its asymptote then meets that of a Butterworth filter.
 */
function scaledPolynomial(order: number): number[] {
  const raw = new Array<number>(order + 1);
  raw[order] = 1;
  // c_(k-1) / c_k = k (2n - k + 1) / (2 (n - k + 1)), from the formula above.
  for (let k = order; k >= 1; k--) raw[k - 1] = (raw[k] * k * (2 * order - k + 1)) / (2 * (order - k + 1));
  const scale = raw[0] ** (1 / order);
  return raw.map((value, k) => value / scale ** (order - k));
}

/** All roots at once, by the simultaneous iteration of Weierstrass (Durand 1960, Kerner 1966). */
function roots(coefficients: readonly number[]): Complex[] {
  const order = coefficients.length - 1;
  // Start on a circle, off the real axis and unevenly, so that no symmetry holds two roots together.
  const found: Complex[] = [];
  for (let k = 0; k < order; k++) {
    const angle = (2 * Math.PI * k) / order + 0.4;
    found.push({ re: 0.9 * Math.cos(angle), im: 0.9 * Math.sin(angle) });
  }
  for (let round = 0; round < 200; round++) {
    let largestStep = 0;
    for (let k = 0; k < order; k++) {
      const { re, im } = found[k];
      let pr = 1;
      let pi = 0;
      for (let j = order - 1; j >= 0; j--) {
        const r = pr * re - pi * im + coefficients[j];
        pi = pr * im + pi * re;
        pr = r;
      }
      let dr = 1;
      let di = 0;
      for (let j = 0; j < order; j++) {
        if (j === k) continue;
        const er = re - found[j].re;
        const ei = im - found[j].im;
        const r = dr * er - di * ei;
        di = dr * ei + di * er;
        dr = r;
      }
      const scale = 1 / (dr * dr + di * di);
      const stepRe = (pr * dr + pi * di) * scale;
      const stepIm = (pi * dr - pr * di) * scale;
      found[k] = { re: re - stepRe, im: im - stepIm };
      largestStep = Math.max(largestStep, Math.hypot(stepRe, stepIm));
    }
    if (largestStep < 1e-15) break;
  }
  return found;
}

/** Frequency at which the sections in series are 3.01 dB down; their level only falls, so halving finds it. */
function halfPowerFrequency(sections: readonly AnalogSection[]): number {
  let low = 0.1;
  let high = 10;
  for (let i = 0; i < 60; i++) {
    const w = (low + high) / 2;
    let lossPower = 1;
    for (const { w0, q } of sections) {
      const x = w / w0;
      lossPower *= q === null ? 1 + x * x : (1 - x * x) ** 2 + (x / q) ** 2;
    }
    if (lossPower < 2) low = w;
    else high = w;
  }
  return (low + high) / 2;
}

const kept = new Map<string, readonly AnalogSection[]>();

/**
 * Sections of the Bessel low-pass prototype of order 1 .. 8 for fc = 1.
 *
 * `magnitude`: -3.01 dB at fc. `phase`: fc is the middle of the phase and the asymptote is Butterworth's, so the level
 * at fc is -3.01 dB for order 1 but -4.77 dB for 2 and -12.59 dB for 8. Processors use either: ask, or measure.
 *
 * Accuracy: w0 and q to about 1e-13 (residual of the polynomial, bessel.test.ts)
 * Source: W. E. Thomson, Delay Networks having Maximally Flat Frequency Characteristics, Proc. IEE 96 III, 1949,
 *   487-490; L. Storch, Synthesis of Constant-Time-Delay Ladder Networks, Proc. IRE 42, 1954, 1666-1675.
 */
export function besselPrototype(order: number, normalisation: BesselNormalisation): readonly AnalogSection[] {
  const key = `${order} ${normalisation}`;
  const before = kept.get(key);
  if (before) return before;
  const sections: AnalogSection[] = [];
  const byHeight = roots(scaledPolynomial(order)).sort((a, b) => b.im - a.im);
  for (let k = 0; k < Math.floor(order / 2); k++) {
    // The upper root of each pair; the lower ones mirror them from the other end of the list.
    const { re, im } = byHeight[k];
    const w0 = Math.hypot(re, im);
    sections.push({ w0, q: w0 / (-2 * re) });
  }
  if (order % 2 === 1) sections.push({ w0: -byHeight[(order - 1) / 2].re, q: null });
  const scale = normalisation === 'magnitude' ? 1 / halfPowerFrequency(sections) : 1;
  const result = sections.map(({ w0, q }) => ({ w0: w0 * scale, q }));
  kept.set(key, result);
  return result;
}
