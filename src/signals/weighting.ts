// Frequency weightings A, C and Z of sound level meters, applied to power in the frequency domain.
import { assertRange } from '../base/assert.ts';

export type Weighting = 'A' | 'C' | 'Z';

// Pole frequencies of the standard's analytical curves, Hz.
const F1 = 20.598997;
const F2 = 107.65265;
const F3 = 737.86223;
const F4 = 12194.217;

/** Amplitude of the curve before it is made 1 at 1 kHz. */
function rawAmplitude(weighting: Weighting, fHz: number): number {
  const f2 = fHz * fHz;
  // f / (f + corner) forms instead of f^4 over f^8: nothing overflows or underflows on the way.
  const c = (f2 / (f2 + F1 * F1)) * ((F4 * F4) / (f2 + F4 * F4));
  if (weighting === 'C') return c;
  return c * (fHz / Math.sqrt(f2 + F2 * F2)) * (fHz / Math.sqrt(f2 + F3 * F3));
}

const AT_1_KHZ = { A: rawAmplitude('A', 1000), C: rawAmplitude('C', 1000) };

/**
 * Factor by which a weighting multiplies power at a frequency; 1 at 1 kHz.
 *
 * @param weighting  "A", "C" or "Z" (none)
 * @param fHz        0 .. 10 000 000; A and C give 0 at 0 Hz
 * @throws RangeError  a weighting that does not exist, a frequency outside its range
 * Accuracy: 1e-6 dB (test/vectors/bands.json)
 * Source: IEC 61672-1:2013, annex E, equations E.1 and E.6, normalised at exactly 1 kHz.
 * @example 10 * Math.log10(weightingPower('A', 100)) // -19.14
 */
export function weightingPower(weighting: Weighting, fHz: number): number {
  assertRange('fHz', fHz, 0, 1e7);
  if (weighting === 'Z') return 1;
  if (weighting !== 'A' && weighting !== 'C') throw new RangeError(`weighting must be A, C or Z, got ${weighting}`);
  return (rawAmplitude(weighting, fHz) / AT_1_KHZ[weighting]) ** 2;
}

/**
 * A weighting in dB; 0 at 1 kHz.
 *
 * @param weighting  "A", "C" or "Z" (0 everywhere)
 * @param fHz        0.001 .. 10 000 000
 * @throws RangeError  as for `weightingPower`
 */
export function weightingDb(weighting: Weighting, fHz: number): number {
  assertRange('fHz', fHz, 1e-3, 1e7);
  return 10 * Math.log10(weightingPower(weighting, fHz));
}
