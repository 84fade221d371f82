// The few operations on complex numbers that the truth of a simulated car needs.

/** A complex number. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

/** Neutral element of `product`. */
export const ONE: Complex = { re: 1, im: 0 };

export function complex(re: number, im = 0): Complex {
  return { re, im };
}

export function sum(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

export function product(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

export function quotient(a: Complex, b: Complex): Complex {
  const norm = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / norm, im: (a.im * b.re - a.re * b.im) / norm };
}

export function scaled(a: Complex, factor: number): Complex {
  return { re: a.re * factor, im: a.im * factor };
}

export function magnitude(a: Complex): number {
  return Math.hypot(a.re, a.im);
}

/** `exp(-j 2 pi fHz delayS)`: what a pure delay does at `fHz`. */
export function delayTurn(fHz: number, delayS: number): Complex {
  const angle = -2 * Math.PI * fHz * delayS;
  return { re: Math.cos(angle), im: Math.sin(angle) };
}

/** Value of `d0 + d1 s + d2 s^2 + ...` at a complex `s`, by Horner's rule. */
export function polynomial(coefficients: readonly number[], s: Complex): Complex {
  let value: Complex = { re: 0, im: 0 };
  for (let k = coefficients.length - 1; k >= 0; k--) value = sum(product(value, s), complex(coefficients[k]));
  return value;
}

/**
 * Where the bilinear transform puts the frequency `fHz` of a system that runs at `rateHz`: `s = 2 rate j tan(pi f / rate)`.
 *
 * A system solved with the trapezoidal rule has exactly its analogue response at this `s` (Oppenheim & Schafer,
 * Discrete-Time Signal Processing, bilinear transformation).
 */
export function bilinearS(fHz: number, rateHz: number): Complex {
  return { re: 0, im: 2 * rateHz * Math.tan((Math.PI * fHz) / rateHz) };
}

/** Response of a finite sequence at `fHz`: `sum x[n] exp(-j 2 pi f (n - zeroIndex) / rate)`. */
export function sequenceResponse(sequence: Float64Array, fHz: number, rateHz: number, zeroIndex = 0): Complex {
  const step = (2 * Math.PI * fHz) / rateHz;
  let re = 0;
  let im = 0;
  // The phasor is renewed every 256 samples, so that rounding of the recurrence never adds up.
  const turnRe = Math.cos(step);
  const turnIm = -Math.sin(step);
  for (let start = 0; start < sequence.length; start += 256) {
    let phasorRe = Math.cos(step * (start - zeroIndex));
    let phasorIm = -Math.sin(step * (start - zeroIndex));
    const stop = Math.min(sequence.length, start + 256);
    for (let n = start; n < stop; n++) {
      re += sequence[n] * phasorRe;
      im += sequence[n] * phasorIm;
      const next = phasorRe * turnRe - phasorIm * turnIm;
      phasorIm = phasorRe * turnIm + phasorIm * turnRe;
      phasorRe = next;
    }
  }
  return { re, im };
}
