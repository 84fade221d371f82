// One word, several Qs: what a processor's screen calls Q, against the cookbook q used everywhere here.
// The same number can mean curves half or twice as wide; which definition a processor has is measured, never assumed.
import { assertRange } from '../../base/assert.ts';
import { amplitudeFromDb } from '../../base/decibel.ts';

/** Where the band stands on the sample-rate axis, for definitions by bandwidth; absent = far below half the rate. */
export interface BandPlace {
  fHz: number;
  rateHz: number;
}

function assertQ(q: number): void {
  assertRange('q', q, 1e-3, 1e4);
}

/** A = 10^(g/40) of the peaking band: the square root of its gain. */
function rootGain(gainDb: number): number {
  assertRange('gainDb', gainDb, -60, 60);
  return amplitudeFromDb(gainDb / 2);
}

/** Angle 2 pi fHz / rateHz, or 0 for a band without a place. */
function angle(place: BandPlace | undefined): number {
  if (!place) return 0;
  assertRange('fHz', place.fHz, 1e-6 * place.rateHz, 0.499 * place.rateHz);
  return (2 * Math.PI * place.fHz) / place.rateHz;
}

/**
 * Cookbook q of a band whose screen shows the Q of the boost's poles, and for a cut that of its zeros, so that boost
 * and cut mirror each other; its inverse is `symmetricPoleQFromCookbookQ`.
 *
 * @param q       0.001 .. 10 000, as shown
 * @param gainDb  -60 .. 60, with its sign
 * @throws RangeError  an argument outside its range (as in all of this file)
 * Source: poles of the cookbook's peaking prototype (s^2 + s A/q + 1) / (s^2 + s / (A q) + 1): Q = A q.
 * @example cookbookQFromSymmetricPoleQ(2.825075, 6) // 2
 */
export function cookbookQFromSymmetricPoleQ(q: number, gainDb: number): number {
  assertQ(q);
  return q / rootGain(Math.abs(gainDb));
}

/** Q of the boost's poles (of the cut's zeros); its inverse is `cookbookQFromSymmetricPoleQ`. */
export function symmetricPoleQFromCookbookQ(q: number, gainDb: number): number {
  assertQ(q);
  return q * rootGain(Math.abs(gainDb));
}

/**
 * Cookbook q of a band whose screen always shows the Q of its poles ("constant Q": cuts are narrower than boosts of
 * the same number); its inverse is `constantPoleQFromCookbookQ`.
 *
 * @example cookbookQFromConstantPoleQ(1.4158916, -6) // 2
 */
export function cookbookQFromConstantPoleQ(q: number, gainDb: number): number {
  assertQ(q);
  return q / rootGain(gainDb);
}

/** Q of the poles, boost or cut; its inverse is `cookbookQFromConstantPoleQ`. */
export function constantPoleQFromCookbookQ(q: number, gainDb: number): number {
  assertQ(q);
  return q * rootGain(gainDb);
}

/**
 * Cookbook q of a band given in octaves between its points of half gain; its inverse is `octavesFromCookbookQ`.
 *
 * q = 1 / (2 sinh(octaves ln 2 / 2)); with a place, the cookbook's first-order allowance for the bilinear transform:
 * the argument times w0 / sin w0.
 *
 * @param octaves  0.001 .. 20
 * Source: W3C Note "Audio EQ Cookbook", 2021.
 */
export function cookbookQFromOctaves(octaves: number, place?: BandPlace): number {
  assertRange('octaves', octaves, 1e-3, 20);
  const w0 = angle(place);
  const stretch = w0 === 0 ? 1 : w0 / Math.sin(w0);
  return 1 / (2 * Math.sinh((octaves * Math.LN2 * stretch) / 2));
}

/** Octaves between the points of half gain; its inverse is `cookbookQFromOctaves`. */
export function octavesFromCookbookQ(q: number, place?: BandPlace): number {
  assertQ(q);
  const w0 = angle(place);
  const stretch = w0 === 0 ? 1 : w0 / Math.sin(w0);
  return (2 * Math.asinh(1 / (2 * q))) / (Math.LN2 * stretch);
}

/**
 * Width between the points 3 dB below the peak, times q, on the analog axis (f/f0 - f0/f).
 *
 * |H|^2 = (x^2 + A^2/q^2) / (x^2 + 1/(A q)^2) set equal to T = A^4 / 10^0.3 gives x q = sqrt((A^4 - T) / (T - 1)) / A.
 */
function threeDbWidth(gainDb: number): number {
  if (!(gainDb >= 3.01 && gainDb <= 60)) {
    throw new RangeError(`gainDb must be 3.01..60 for a width 3 dB below the peak, got ${gainDb}`);
  }
  const a = rootGain(gainDb);
  const peakPower = a ** 4;
  const edgePower = peakPower / 10 ** 0.3;
  return Math.sqrt((peakPower - edgePower) / (edgePower - 1)) / a;
}

/**
 * Cookbook q of a boost given as Q = f0 / (width between the points 3 dB below its peak); its inverse is
 * `threeDbQFromCookbookQ`. Only boosts of more than 3 dB have such a width.
 *
 * With a place it is exact for the digital band too: the bilinear transform turns the half width d in radians into
 * x = 2 tan(d) / sin(w0), because both edges lie at the same ratio from f0 on the warped axis.
 *
 * @param q       0.001 .. 10 000; with a place, large enough that the width fits below half the rate
 * @param gainDb  3.01 .. 60
 * Source: derivation above.
 */
export function cookbookQFromThreeDbQ(q: number, gainDb: number, place?: BandPlace): number {
  assertQ(q);
  const width = threeDbWidth(gainDb);
  const w0 = angle(place);
  if (w0 === 0) return width * q;
  const half = w0 / (2 * q);
  if (!(half < Math.PI / 2)) throw new RangeError(`q must be above ${w0 / Math.PI} at this place, got ${q}`);
  return (width * Math.sin(w0)) / (2 * Math.tan(half));
}

/** f0 over the width 3 dB below the peak of a boost; its inverse is `cookbookQFromThreeDbQ`. */
export function threeDbQFromCookbookQ(q: number, gainDb: number, place?: BandPlace): number {
  assertQ(q);
  const x = threeDbWidth(gainDb) / q;
  const w0 = angle(place);
  if (w0 === 0) return 1 / x;
  return w0 / (2 * Math.atan((x * Math.sin(w0)) / 2));
}
