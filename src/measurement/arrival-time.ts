// When the direct sound of a driver arrives, and which way it first moves.
import { inverseRealFft, powerOfTwoFrom, realFft, type Spectrum } from '../signals/fft.ts';
import { minimumPhase } from '../signals/minimum-phase.ts';

/** What is known beforehand about the driver whose arrival is sought. */
export interface ArrivalQuestion {
  rateHz: number;
  /** Index of time zero in the impulse response; may be fractional. */
  zeroIndex: number;
  /** Where the driver is measured well: the magnitude is taken as it is there and continued outside, Hz. */
  bandHz: { low: number; high: number };
  /** Plausible arrivals, s after time zero. */
  windowS: { from: number; to: number };
  /** Shape of the magnitude outside the band, dB, any constant; only its slopes matter. */
  outsideDb: (fHz: number) => number;
}

export interface Arrival {
  arrivalS: number;
  /** Of the correlation at its top. */
  sign: 1 | -1;
  /** Largest correlation of the other sign in the window over the one chosen, 0 .. 1 and more. */
  ambiguity: number;
  /** The top sits on the edge of the window: no top at all. */
  atEdge: boolean;
  /** Correlation at the top re what it would be without any phase error, 0 .. 1. */
  coherence: number;
}

const LOWEST_HZ = 5;

/**
 * Arrival by whitened correlation with the measured minimum phase.
 *
 * What driver, crossover and cabin do to the phase is predicted from the measured magnitude and taken out; what is left
 * is a delay and a sign. Whitening keeps the top narrow.
 *
 * @param impulse  impulse response, any scale, with at least 5 ms before the window and some 100 ms after; not changed
 * @throws RangeError an empty band or window
 * Source: C. H. Knapp, G. C. Carter, The generalized correlation method for estimation of time delay, IEEE Trans. ASSP
 *   24(4), 1976, with the minimum phase of the measured magnitude as reference (own combination).
 */
export function arrivalTime(impulse: Float64Array, question: ArrivalQuestion): Arrival {
  const { rateHz, bandHz, windowS, zeroIndex } = question;
  if (!(bandHz.high > bandHz.low && windowS.to > windowS.from)) {
    throw new RangeError(
      `band and window must not be empty, got ${bandHz.low}..${bandHz.high} Hz, ${windowS.from}..${windowS.to} s`,
    );
  }
  const size = Math.max(powerOfTwoFrom(impulse.length), powerOfTwoFrom(0.3 * rateHz));
  const h = realFft(impulse, size);
  const finer = Math.max(1, powerOfTwoFrom(1.3 * rateHz) / size);
  const reference = referencePhase(h, size, finer, question);
  const weight = new Float64Array(size / 2 + 1);
  let total = 0;
  let loudest = 0;
  for (let k = 1; k < size / 2; k++) loudest = Math.max(loudest, reference.magnitude[k * finer]);
  const upper = Math.min(18_000, 0.45 * rateHz);
  let lowest = 0;
  let highest = 0;
  for (let k = 1; k < size / 2; k++) {
    const fHz = (k * rateHz) / size;
    if (fHz > upper || reference.magnitude[k * finer] < loudest * 0.316) continue;
    if (fHz < bandHz.low / 1.6 || fHz > bandHz.high * 1.6) continue;
    weight[k] = 1;
    if (lowest === 0) lowest = fHz;
    highest = fHz;
  }
  const wide = highest > 8 * lowest;
  const re = new Float64Array(4 * size + 1);
  const im = new Float64Array(4 * size + 1);
  for (let k = 1; k < size / 2; k++) {
    if (weight[k] === 0) continue;
    const mr = reference.phase.re[k * finer];
    const mi = reference.phase.im[k * finer];
    const scale = Math.hypot(mr, mi) * Math.hypot(h.re[k], h.im[k]);
    if (scale === 0) continue;
    const w = (wide ? 1 / Math.sqrt(k) : 1) / scale;
    total += w * scale;
    re[k] = w * (h.re[k] * mr + h.im[k] * mi);
    im[k] = w * (h.im[k] * mr - h.re[k] * mi);
  }
  // Eight times finer in time than the impulse response.
  const correlation = inverseRealFft(re, im, 8 * size);
  const at = (index: number): number => correlation[((index % (8 * size)) + 8 * size) % (8 * size)];
  const indexOf = (timeS: number): number => Math.round((timeS * rateHz + zeroIndex) * 8);
  const from = indexOf(windowS.from);
  const to = indexOf(windowS.to);
  let top = from;
  for (let i = from; i <= to; i++) if (Math.abs(at(i)) > Math.abs(at(top))) top = i;
  const sign = at(top) >= 0 ? 1 : -1;
  let opposite = 0;
  for (let i = from; i <= to; i++) opposite = Math.max(opposite, -sign * at(i));
  const left = Math.abs(at(top - 1));
  const peak = Math.abs(at(top));
  const right = Math.abs(at(top + 1));
  const bend = left - 2 * peak + right;
  const shift = bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (left - right)) / bend)) : 0;
  return {
    arrivalS: ((top + shift) / 8 - zeroIndex) / rateHz,
    sign,
    ambiguity: peak > 0 ? opposite / peak : 1,
    atEdge: top === from || top === to,
    coherence: total > 0 ? (peak * 4 * size) / total : 0,
  };
}

/** Minimum phase of the smoothed magnitude, continued outside the band by the given shape. */
function referencePhase(
  h: Spectrum,
  size: number,
  finer: number,
  question: ArrivalQuestion,
): { phase: Spectrum; magnitude: Float64Array } {
  const { rateHz, bandHz, outsideDb } = question;
  const bins = size / 2 + 1;
  const cumulative = new Float64Array(bins + 1);
  for (let k = 0; k < bins; k++) cumulative[k + 1] = cumulative[k] + h.re[k] * h.re[k] + h.im[k] * h.im[k];
  const binHz = rateHz / size;
  // Mean power over a sixth of an octave; fractional ends keep it smooth where that is less than a bin.
  const powerTo = (x: number): number => {
    const clamped = Math.min(Math.max(x, 0), bins);
    const whole = Math.floor(clamped);
    const next = whole < bins ? cumulative[whole + 1] - cumulative[whole] : 0;
    return cumulative[whole] + (clamped - whole) * next;
  };
  const smooth = (fHz: number): number => {
    const low = (fHz * 2 ** (-1 / 12)) / binHz + 0.5;
    const high = (fHz * 2 ** (1 / 12)) / binHz + 0.5;
    const wide = Math.max(high - low, 1);
    const middle = (low + high) / 2;
    return Math.sqrt(Math.max(1e-300, (powerTo(middle + wide / 2) - powerTo(middle - wide / 2)) / wide));
  };
  const lowHz = Math.max(bandHz.low / 1.6, LOWEST_HZ);
  const highHz = Math.min(bandHz.high * 1.6, 0.47 * rateHz);
  const lowScale = smooth(lowHz) / 10 ** (outsideDb(lowHz) / 20);
  const highScale = smooth(highHz) / 10 ** (outsideDb(highHz) / 20);
  const fineSize = size * finer;
  const magnitude = new Float64Array(fineSize / 2 + 1);
  for (let k = 0; k < magnitude.length; k++) {
    const fHz = Math.max((k * rateHz) / fineSize, 0.5 * binHz * 0.01);
    magnitude[k] =
      fHz < lowHz
        ? lowScale * 10 ** (outsideDb(fHz) / 20)
        : fHz > highHz
          ? highScale * 10 ** (outsideDb(fHz) / 20)
          : smooth(fHz);
  }
  return { phase: minimumPhase(magnitude, fineSize), magnitude };
}
