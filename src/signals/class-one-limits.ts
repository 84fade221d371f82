// Limits within which a fractional-octave filter counts as class 1: the measure for any band filter we make or meet.
// The breakpoints are those in circulation for IEC 61260-1:2014, table 1; compare with the standard itself before a
// conformity is claimed in writing.
import { assertRange } from '../base/assert.ts';

const OCTAVE_RATIO = 10 ** 0.3;

/** Octave breakpoints: exponent of G, least and most attenuation there, dB. The band edge, G^(1/2), is stated apart. */
const BREAKPOINTS: readonly { exponent: number; leastDb: number; mostDb: number }[] = [
  { exponent: 0, leastDb: -0.4, mostDb: 0.4 },
  { exponent: 1 / 8, leastDb: -0.4, mostDb: 0.5 },
  { exponent: 1 / 4, leastDb: -0.4, mostDb: 0.7 },
  { exponent: 3 / 8, leastDb: -0.4, mostDb: 1.4 },
  { exponent: 1 / 2, leastDb: -0.4, mostDb: 5.3 },
];
const STOP_BREAKPOINTS: readonly { exponent: number; leastDb: number }[] = [
  { exponent: 1 / 2, leastDb: 1.2 },
  { exponent: 1, leastDb: 16.6 },
  { exponent: 2, leastDb: 40.5 },
  { exponent: 3, leastDb: 60 },
  { exponent: 4, leastDb: 70 },
];

/** Attenuation relative to mid-band that class 1 allows; `mostDb` is null where any more is allowed. */
export interface AttenuationLimits {
  leastDb: number;
  mostDb: number | null;
}

/** Normalised frequency of 1/`fraction` octave for a breakpoint of the octave: the mask shrinks with the band. */
function breakpointRatio(fraction: number, exponent: number): number {
  const edge = OCTAVE_RATIO ** (1 / (2 * fraction)) - 1;
  return 1 + (edge / (OCTAVE_RATIO ** 0.5 - 1)) * (OCTAVE_RATIO ** exponent - 1);
}

function between(x: number, x0: number, y0: number, x1: number, y1: number): number {
  return y0 + ((y1 - y0) * Math.log(x / x0)) / Math.log(x1 / x0);
}

/**
 * Class-1 limits of attenuation at a frequency, for a filter of 1/`fraction` octave.
 *
 * Linear in log frequency between breakpoints; the same at the ratio and its inverse. At the band edge itself the
 * stop-band limit holds (at least 1.2 dB); just inside it at most 5.3 dB.
 *
 * @param fraction  whole number 1 .. 96
 * @param ratio     frequency over exact mid-band frequency, > 0
 * @throws RangeError  an argument outside its range
 * Source: IEC 61260-1:2014, clause 5.10 and table 1 (read from secondary sources).
 * @example classOneLimits(1, 10 ** 0.3) // { leastDb: 16.6, mostDb: null }
 */
export function classOneLimits(fraction: number, ratio: number): AttenuationLimits {
  assertRange('fraction', fraction, 1, 96);
  assertRange('ratio', ratio, 1e-12, 1e12);
  const x = ratio < 1 ? 1 / ratio : ratio;
  const edge = breakpointRatio(fraction, 0.5);
  // Rounding must not put a frequency given as the exact edge inside it.
  if (x < edge * (1 - 1e-12)) {
    for (let i = 1; i < BREAKPOINTS.length; i++) {
      const from = BREAKPOINTS[i - 1];
      const to = BREAKPOINTS[i];
      const x1 = breakpointRatio(fraction, to.exponent);
      if (x > x1 * (1 + 1e-12)) continue;
      const x0 = breakpointRatio(fraction, from.exponent);
      return {
        leastDb: between(x, x0, from.leastDb, x1, to.leastDb),
        mostDb: between(Math.min(x, x1), x0, from.mostDb, x1, to.mostDb),
      };
    }
  }
  for (let i = 1; i < STOP_BREAKPOINTS.length; i++) {
    const from = STOP_BREAKPOINTS[i - 1];
    const to = STOP_BREAKPOINTS[i];
    const x0 = breakpointRatio(fraction, from.exponent);
    const x1 = breakpointRatio(fraction, to.exponent);
    if (x <= x1) return { leastDb: between(Math.max(x, x0), x0, from.leastDb, x1, to.leastDb), mostDb: null };
  }
  return { leastDb: STOP_BREAKPOINTS[STOP_BREAKPOINTS.length - 1].leastDb, mostDb: null };
}

/**
 * How far a measured filter stays inside class 1: the smallest distance to a limit over all given frequencies.
 *
 * @param fraction       whole number 1 .. 96
 * @param centreHz       exact mid-band frequency, > 0
 * @param fHz            frequencies > 0
 * @param attenuationDb  relative to mid-band, as long as fHz
 * @returns dB, positive inside, negative outside, and the frequency where it is smallest
 * @throws RangeError  an argument outside its range, lengths that differ or are 0
 */
export function classOneMargin(
  fraction: number,
  centreHz: number,
  fHz: ArrayLike<number>,
  attenuationDb: ArrayLike<number>,
): { marginDb: number; atHz: number } {
  if (fHz.length === 0 || fHz.length !== attenuationDb.length) {
    throw new RangeError(`attenuationDb must be as long as fHz (>= 1), got ${attenuationDb.length} for ${fHz.length}`);
  }
  let marginDb = Number.POSITIVE_INFINITY;
  let atHz = fHz[0];
  for (let i = 0; i < fHz.length; i++) {
    assertRange('attenuationDb', attenuationDb[i], -1000, 1000);
    const { leastDb, mostDb } = classOneLimits(fraction, fHz[i] / centreHz);
    const inside = Math.min(
      attenuationDb[i] - leastDb,
      mostDb === null ? Number.POSITIVE_INFINITY : mostDb - attenuationDb[i],
    );
    if (inside < marginDb) {
      marginDb = inside;
      atHz = fHz[i];
    }
  }
  return { marginDb, atHz };
}
