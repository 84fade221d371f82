// Sections run over samples: whole signals, or blocks of a stream.
import { assertStable, type Section } from './sections.ts';

/** A filter that remembers where it stopped. */
export interface SectionFilter {
  /** Filters `block` into `out` (which may be the same array, and must be as long). Allocates nothing. */
  process(block: ArrayLike<number>, out: Float64Array | Float32Array): void;
  /** Forgets everything heard, as if just made. */
  reset(): void;
}

/**
 * Runs sections in series over a stream of blocks; any cutting into blocks gives the same samples.
 *
 * Transposed direct form II in double precision: at 20 Hz and 96 kHz the poles lie within 1e-3 of z = 1, where single
 * precision coefficients already bend the curve by tenths of a decibel. State and coefficients stay in doubles even
 * if the blocks are single precision.
 *
 * @param sections  stable; none copies the input
 * @throws RangeError an unstable section; on `process`, an `out` of another length than `block`
 * Source: A. V. Oppenheim, R. W. Schafer, Discrete-Time Signal Processing, 3rd ed. 2010, section 6.4.
 */
export function sectionFilter(sections: readonly Section[]): SectionFilter {
  assertStable(sections);
  const held = sections.map((section) => ({ ...section }));
  const first = new Float64Array(held.length);
  const second = new Float64Array(held.length);
  return {
    process(block, out) {
      const length = block.length;
      if (out.length !== length) throw new RangeError(`out must be as long as block (${length}), got ${out.length}`);
      if (held.length === 0) for (let n = 0; n < length; n++) out[n] = block[n];
      // Sample by sample through all sections, so that a single-precision `out` never stands between two of them.
      for (let n = 0; n < length && held.length > 0; n++) {
        let x = block[n];
        for (let i = 0; i < held.length; i++) {
          const section = held[i];
          const y = section.b0 * x + first[i];
          first[i] = section.b1 * x - section.a1 * y + second[i];
          second[i] = section.b2 * x - section.a2 * y;
          x = y;
        }
        out[n] = x;
      }
    },
    reset() {
      first.fill(0);
      second.fill(0);
    },
  };
}

/**
 * A whole signal through sections in series, from rest; as long as the signal (the tail beyond it is not kept).
 *
 * @param signal  any length; not changed
 * @throws RangeError an unstable section
 */
export function filtered(sections: readonly Section[], signal: ArrayLike<number>): Float64Array {
  const out = new Float64Array(signal.length);
  sectionFilter(sections).process(signal, out);
  return out;
}
