// Equaliser bands: one second-order section each, from the settings a person dials in.
import { assertRange } from '../../base/assert.ts';
import { amplitudeFromDb } from '../../base/decibel.ts';
import type { Section } from './sections.ts';
import { shelfQ } from './shelf-slope.ts';

/**
 * Settings of one band. `q` is the cookbook's everywhere: for `peaking` the bandwidth lies between the points of half
 * the gain in dB. Shelves take either `q` or `slope` (1 = steepest without overshoot). An all-pass is of order 2
 * unless it says 1, and then has no q.
 */
export type EqualiserBand =
  | { type: 'peaking'; fHz: number; gainDb: number; q: number }
  | { type: 'low-shelf' | 'high-shelf'; fHz: number; gainDb: number; q: number }
  | { type: 'low-shelf' | 'high-shelf'; fHz: number; gainDb: number; slope: number }
  | { type: 'notch' | 'band-pass' | 'low-pass' | 'high-pass'; fHz: number; q: number }
  | { type: 'all-pass'; fHz: number; q: number; order?: 2 | undefined }
  | { type: 'all-pass'; fHz: number; order: 1 };

/** Throws RangeError unless a band can be built: fHz 1e-6 .. 0.499 of rateHz, gainDb -60 .. 60, q 0.01 .. 1000. */
function assertBand(band: EqualiserBand, rateHz: number): void {
  assertRange('rateHz', rateHz, 1, 1e6);
  assertRange(`${band.type} fHz`, band.fHz, 1e-6 * rateHz, 0.499 * rateHz);
  if (band.type === 'peaking' || band.type === 'low-shelf' || band.type === 'high-shelf') {
    assertRange(`${band.type} gainDb`, band.gainDb, -60, 60);
  }
}

function qOf(band: EqualiserBand): number {
  const q =
    'slope' in band && band.slope !== undefined ? shelfQ(band.slope, band.gainDb) : 'q' in band ? band.q : Number.NaN;
  assertRange(`${band.type} q`, q, 0.01, 1000);
  return q;
}

/**
 * Digital section of one equaliser band.
 *
 * - peaking: gainDb at fHz, 0 dB at 0 Hz and at rateHz / 2; boost and cut of the same size are each other's inverse
 * - shelves: gainDb on their side, half of it at fHz, 0 dB on the other
 * - notch: nothing at fHz; band-pass: 0 dB at fHz; low- and high-pass: level q at fHz
 * - all-pass: level 1; order 1 turns 0 to -180 degrees with -90 at fHz, order 2 turns 0 to -360 with -180 at fHz
 *
 * @param band    fHz 1e-6 .. 0.499 of rateHz; gainDb -60 .. 60; q 0.01 .. 1000
 * @param rateHz  1 .. 1 000 000, the rate of the processor that runs the band
 * @returns a stable section
 * @throws RangeError  a setting outside its range, a q that is missing, a slope steeper than the gain allows
 * Accuracy: coefficients to 1e-12 (test/vectors/filters.json)
 * Source: R. Bristow-Johnson, Cookbook formulae for audio equalizer biquad filter coefficients; W3C Note "Audio EQ
 *   Cookbook", 2021. First-order all-pass: bilinear transform of (1 - s) / (1 + s).
 * @example equaliserBandSection({ type: 'peaking', fHz: 1000, gainDb: 0, q: 1 }, 48000) // b equals a: nothing happens
 */
export function equaliserBandSection(band: EqualiserBand, rateHz: number): Section {
  assertBand(band, rateHz);
  const w0 = (2 * Math.PI * band.fHz) / rateHz;
  if (band.type === 'all-pass' && band.order === 1) {
    const t = Math.tan(w0 / 2);
    const g = (t - 1) / (t + 1);
    return { b0: g, b1: 1, b2: 0, a1: g, a2: 0 };
  }
  const cos = Math.cos(w0);
  const alpha = Math.sin(w0) / (2 * qOf(band));
  const a0 = 1 + alpha;
  switch (band.type) {
    case 'peaking': {
      const a = amplitudeFromDb(band.gainDb / 2);
      return scaled(1 + alpha * a, -2 * cos, 1 - alpha * a, 1 + alpha / a, -2 * cos, 1 - alpha / a);
    }
    case 'low-shelf':
      return shelf(amplitudeFromDb(band.gainDb / 2), alpha, cos, 1);
    case 'high-shelf':
      return shelf(amplitudeFromDb(band.gainDb / 2), alpha, cos, -1);
    case 'notch':
      return scaled(1, -2 * cos, 1, a0, -2 * cos, 1 - alpha);
    case 'all-pass':
      return scaled(1 - alpha, -2 * cos, 1 + alpha, a0, -2 * cos, 1 - alpha);
    case 'band-pass':
      return scaled(alpha, 0, -alpha, a0, -2 * cos, 1 - alpha);
    case 'low-pass': {
      // (1 - cos w0) / 2, written so that it keeps its digits at low frequencies.
      const b = Math.sin(w0 / 2) ** 2;
      return scaled(b, 2 * b, b, a0, -2 * cos, 1 - alpha);
    }
    case 'high-pass': {
      const b = (1 + cos) / 2;
      return scaled(b, -2 * b, b, a0, -2 * cos, 1 - alpha);
    }
    default:
      throw new RangeError(`type of a band must be one of the known ones, got ${(band as { type: string }).type}`);
  }
}

/** The two shelves mirror each other in frequency: `side` 1 is the low one, -1 the high one. */
function shelf(a: number, alpha: number, cos: number, side: 1 | -1): Section {
  const c = side * cos;
  const r = 2 * Math.sqrt(a) * alpha;
  return scaled(
    a * (a + 1 - (a - 1) * c + r),
    side * 2 * a * (a - 1 - (a + 1) * c),
    a * (a + 1 - (a - 1) * c - r),
    a + 1 + (a - 1) * c + r,
    side * -2 * (a - 1 + (a + 1) * c),
    a + 1 + (a - 1) * c - r,
  );
}

function scaled(b0: number, b1: number, b2: number, a0: number, a1: number, a2: number): Section {
  return { b0: b0 / a0, b1: b1 / a0, b2: b2 / a0, a1: a1 / a0, a2: a2 / a0 };
}

/**
 * Level of a peaking band in dB, without complex numbers: what a fit evaluates thousands of times.
 *
 * With u = cos w - cos w0 the numerator is u^2 + (alpha A sin w)^2 and the denominator u^2 + (alpha sin w / A)^2; u is
 * formed as a product of sines, so it keeps its digits near fHz and near 0 Hz.
 *
 * @param band    a peaking band, ranges as for `equaliserBandSection`
 * @param fHz     0 .. rateHz / 2; not changed
 * @param rateHz  1 .. 1 000 000
 * @returns dB, as long as fHz, between 0 and gainDb
 * @throws RangeError  whatever is outside its range
 * Source: derivation above from the cookbook's peaking section.
 */
export function peakingLevelDb(
  band: { fHz: number; gainDb: number; q: number },
  fHz: ArrayLike<number>,
  rateHz: number,
): Float64Array {
  const peaking: EqualiserBand = { type: 'peaking', fHz: band.fHz, gainDb: band.gainDb, q: band.q };
  assertBand(peaking, rateHz);
  const w0 = (2 * Math.PI * band.fHz) / rateHz;
  const alpha = Math.sin(w0) / (2 * qOf(peaking));
  const a = amplitudeFromDb(band.gainDb / 2);
  const out = new Float64Array(fHz.length);
  for (let i = 0; i < out.length; i++) {
    assertRange('fHz', fHz[i], 0, rateHz / 2);
    const w = (2 * Math.PI * fHz[i]) / rateHz;
    const u = -2 * Math.sin((w + w0) / 2) * Math.sin((w - w0) / 2);
    const sine = Math.sin(w);
    const p = (alpha * a * sine) ** 2;
    const r = ((alpha * sine) / a) ** 2;
    out[i] = 10 * Math.log10((u * u + p) / (u * u + r));
  }
  return out;
}
