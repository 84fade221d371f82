// When the direct sound of a driver arrives, and which way it first moves.
import { inverseComplexFft, powerOfTwoFrom, realFft, type Spectrum } from '../signals/fft.ts';
import { minimumPhaseLog } from '../signals/minimum-phase.ts';

/** What is known beforehand about the driver whose arrival is sought. */
export interface ArrivalQuestion {
  rateHz: number;
  /** Index of time zero in the impulse response; may be fractional. */
  zeroIndex: number;
  /** Pass band of the driver, Hz. */
  bandHz: { low: number; high: number };
  /** Where the magnitude is measured well and taken as it is; 1.6 times beyond the band either way when absent, Hz. */
  measuredHz?: { low: number; high: number };
  /** Plausible arrivals, s after time zero. */
  windowS: { from: number; to: number };
  /** Shape of the magnitude outside the band, dB, any constant; only its slopes matter. */
  outsideDb: (fHz: number) => number;
  /** Power of the noise in each bin of the impulse response as given, unit of |H|^2; none when absent. */
  noisePower?: (fHz: number) => number;
}

export interface Arrival {
  arrivalS: number;
  /** Of the correlation at its top. */
  sign: 1 | -1;
  /** Largest correlation of the other sign near the top over the top itself, 0 .. 1 and more. */
  ambiguity: number;
  /** Largest envelope anywhere in the window over the one at the arrival: above 1 a reflection is louder. */
  rivalry: number;
  /** How much later that envelope has its top, s. */
  rivalAfterS: number;
  /** The top sits on the edge of the window: no top at all. */
  atEdge: boolean;
  /** Correlation at the top re what it would be without any phase error, 0 .. 1. */
  coherence: number;
}

const LOWEST_HZ = 5;
const HIGHEST_HZ = 18_000;

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
  return topOf(whitenedResponse(impulse, question), question.windowS);
}

/** What is left of a response when its measured minimum phase and its magnitude are taken out. */
export interface WhitenedResponse {
  re: Float64Array;
  im: Float64Array;
  /** Weight of each bin; 0 outside the band in use. */
  weight: Float64Array;
  size: number;
  rateHz: number;
  zeroIndex: number;
  lowHz: number;
  highHz: number;
}

/** Within this of its maximum the reference counts, amplitude (20 dB). */
const COUNTS_ABOVE = 0.1;

/** What was measured of a response, before anything is guessed of it: it serves every guess about what lies outside. */
export interface MeasuredResponse {
  h: Spectrum;
  size: number;
  rateHz: number;
  zeroIndex: number;
  /** Bins of the magnitude for one of `h`. */
  finer: number;
  rangeHz: { low: number; high: number };
  /** Smoothed magnitude on the fine bins inside the range, 0 outside. */
  magnitude: Float64Array;
  /** The same at the two ends of the range. */
  ends: { low: number; high: number };
  /** Signal over signal and noise per bin of `h`. */
  clearness: Float64Array;
}

/** @throws RangeError an empty band or window */
export function measuredResponse(
  impulse: Float64Array,
  question: Omit<ArrivalQuestion, 'outsideDb'>,
): MeasuredResponse {
  const { rateHz, bandHz, windowS, zeroIndex } = question;
  if (!(bandHz.high > bandHz.low && windowS.to > windowS.from)) {
    throw new RangeError(
      `band and window must not be empty, got ${bandHz.low}..${bandHz.high} Hz, ${windowS.from}..${windowS.to} s`,
    );
  }
  const size = Math.max(powerOfTwoFrom(impulse.length), powerOfTwoFrom(0.3 * rateHz));
  const h = realFft(impulse, size);
  const finer = Math.max(1, powerOfTwoFrom(1.3 * rateHz) / size);
  return { h, size, rateHz, zeroIndex, finer, ...smoothedMagnitude(h, size, finer, question) };
}

export function whitenedResponse(impulse: Float64Array, question: ArrivalQuestion): WhitenedResponse {
  return whitenedBy(measuredResponse(impulse, question), question.outsideDb);
}

/** The response whitened by one guess about its magnitude outside the range that was measured. */
export function whitenedBy(response: MeasuredResponse, outsideDb: (fHz: number) => number): WhitenedResponse {
  const { h, size, rateHz, zeroIndex, finer, rangeHz: measured, clearness } = response;
  const magnitude = continuedMagnitude(response, outsideDb);
  const phaseRad = minimumPhaseLog(magnitude, size * finer).im;
  const bins = size / 2 + 1;
  const weight = new Float64Array(bins);
  const re = new Float64Array(bins);
  const im = new Float64Array(bins);
  const from = Math.max(1, Math.ceil((measured.low * size) / rateHz));
  const to = Math.min(bins - 2, Math.floor((Math.min(measured.high, HIGHEST_HZ, 0.45 * rateHz) * size) / rateHz));
  let loudest = 0;
  for (let k = from; k <= to; k++) loudest = Math.max(loudest, magnitude[k * finer]);
  let lowest = 0;
  let highest = 0;
  for (let k = from; k <= to; k++) {
    if (magnitude[k * finer] < loudest * COUNTS_ABOVE) continue;
    weight[k] = clearness[k];
    if (lowest === 0) lowest = k;
    highest = k;
  }
  // Over more than three octaves the treble would decide alone: weigh octaves more evenly.
  const wide = highest > 8 * lowest;
  const taper = TAPER * Math.log(highest / Math.max(1, lowest));
  for (let k = lowest; k <= highest; k++) {
    if (weight[k] === 0) continue;
    if (wide) weight[k] /= Math.sqrt(k);
    // Soft ends of the band keep the correlation from ringing ahead of its top.
    const edge = taper > 0 ? Math.min(1, Math.log((k + 0.5) / lowest) / taper, Math.log(highest / k) / taper) : 1;
    weight[k] *= 0.5 - 0.5 * Math.cos(Math.PI * edge);
    const scale = Math.hypot(h.re[k], h.im[k]);
    if (scale === 0) continue;
    const mr = Math.cos(phaseRad[k * finer]);
    const mi = Math.sin(phaseRad[k * finer]);
    re[k] = (weight[k] * (h.re[k] * mr + h.im[k] * mi)) / scale;
    im[k] = (weight[k] * (h.im[k] * mr - h.re[k] * mi)) / scale;
  }
  return {
    re,
    im,
    weight,
    size,
    rateHz,
    zeroIndex,
    lowHz: (lowest * rateHz) / size,
    highHz: (highest * rateHz) / size,
  };
}

/** Share of the band, in octaves, over which its weight rises at either end. */
const TAPER = 0.15;
/** An earlier envelope counts as the direct sound from this share of the highest on. */
const DIRECT_SHARE = 0.4;

/**
 * The first clear top of a whitened response in a window.
 *
 * The envelope finds the sound, its earliest top of at least 0.4 of the highest: a reflection can be louder than the
 * direct sound but not earlier. The correlation's own top next to it gives time and sign.
 */
export function topOf(white: WhitenedResponse, windowS: { from: number; to: number }): Arrival {
  const { size, rateHz, zeroIndex } = white;
  // Twice the rate of the impulse response: a parabola between such samples is true to a hundredth of one.
  const fine = 2 * size;
  const re = new Float64Array(fine);
  const im = new Float64Array(fine);
  let total = 0;
  let centre = 0;
  for (let k = 1; k < white.re.length; k++) {
    re[k] = white.re[k];
    im[k] = white.im[k];
    total += white.weight[k];
    centre += white.weight[k] * k;
  }
  if (total === 0)
    return { arrivalS: 0, sign: 1, ambiguity: 1, rivalry: 1, rivalAfterS: 0, atEdge: true, coherence: 0 };
  inverseComplexFft(re, im);
  const wrapped = (index: number): number => ((index % fine) + fine) % fine;
  const envelope = (index: number): number => Math.hypot(re[wrapped(index)], im[wrapped(index)]);
  const at = (index: number): number => re[wrapped(index)];
  const indexOf = (timeS: number): number => Math.round((timeS * rateHz + zeroIndex) * 2);
  const from = indexOf(windowS.from);
  const to = indexOf(windowS.to);
  let highest = 0;
  let loudest = from;
  for (let i = from; i <= to; i++) {
    if (envelope(i) > highest) {
      highest = envelope(i);
      loudest = i;
    }
  }
  let first = loudest;
  for (let i = from + 1; i < loudest; i++) {
    const e = envelope(i);
    if (e >= DIRECT_SHARE * highest && e >= envelope(i - 1) && e > envelope(i + 1)) {
      first = i;
      break;
    }
  }
  const period = (fine * total) / centre;
  const reach = Math.round(0.5 * period);
  let top = first;
  for (let i = Math.max(from, first - reach); i <= Math.min(to, first + reach); i++) {
    if (Math.abs(at(i)) > Math.abs(at(top))) top = i;
  }
  const sign = at(top) >= 0 ? 1 : -1;
  let opposite = 0;
  for (let i = Math.max(from, top - 2 * reach); i <= Math.min(to, top + 2 * reach); i++) {
    opposite = Math.max(opposite, -sign * at(i));
  }
  const left = Math.abs(at(top - 1));
  const peak = Math.abs(at(top));
  const right = Math.abs(at(top + 1));
  const bend = left - 2 * peak + right;
  const shift = bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (left - right)) / bend)) : 0;
  return {
    arrivalS: ((top + shift) / 2 - zeroIndex) / rateHz,
    sign,
    ambiguity: peak > 0 ? opposite / peak : 1,
    rivalAfterS: (loudest - first) / 2 / rateHz,
    rivalry: highest / Math.max(envelope(first), 1e-300),
    atEdge: top <= from || top >= to,
    coherence: (peak * fine) / total,
  };
}

/** Correlation at one delay between two frequencies, -1 .. 1. */
export function correlationAt(white: WhitenedResponse, timeS: number, bandHz: { low: number; high: number }): number {
  let sum = 0;
  let total = 0;
  for (let k = 1; k < white.re.length; k++) {
    const fHz = (k * white.rateHz) / white.size;
    if (white.weight[k] === 0 || fHz < bandHz.low || fHz > bandHz.high) continue;
    const angle = 2 * Math.PI * fHz * (timeS + white.zeroIndex / white.rateHz);
    sum += white.re[k] * Math.cos(angle) - white.im[k] * Math.sin(angle);
    total += white.weight[k];
  }
  return total > 0 ? sum / total : 0;
}

function measuredRange(question: Omit<ArrivalQuestion, 'outsideDb'>): { low: number; high: number } {
  const { bandHz, measuredHz, rateHz } = question;
  const range = measuredHz ?? { low: bandHz.low / 1.6, high: bandHz.high * 1.6 };
  return { low: Math.max(range.low, LOWEST_HZ), high: Math.min(range.high, 0.47 * rateHz) };
}

/** Magnitude over a sixth of an octave where it was measured, and how clear of noise. */
function smoothedMagnitude(
  h: Spectrum,
  size: number,
  finer: number,
  question: Omit<ArrivalQuestion, 'outsideDb'>,
): Pick<MeasuredResponse, 'rangeHz' | 'magnitude' | 'ends' | 'clearness'> {
  const { rateHz, noisePower } = question;
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
  const withNoise = (fHz: number): number => {
    const low = (fHz * 2 ** (-1 / 12)) / binHz + 0.5;
    const high = (fHz * 2 ** (1 / 12)) / binHz + 0.5;
    const wide = Math.max(high - low, 1);
    const middle = (low + high) / 2;
    return Math.max(1e-300, (powerTo(middle + wide / 2) - powerTo(middle - wide / 2)) / wide);
  };
  // What noise adds to the magnitude would bend the phase: it is taken out, a hundredth of the power left at least.
  const smooth = (fHz: number): number => {
    const power = withNoise(fHz);
    return Math.sqrt(noisePower ? Math.max(power - noisePower(fHz), 0.01 * power) : power);
  };
  const clearness = new Float64Array(bins);
  for (let k = 1; k < bins; k++) {
    const noise = noisePower ? noisePower(k * binHz) : 0;
    const signal = withNoise(k * binHz) - noise;
    clearness[k] = signal > noise ? signal / (signal + noise) : 0;
  }
  const rangeHz = measuredRange(question);
  const fineBinHz = rateHz / (size * finer);
  const magnitude = new Float64Array((size * finer) / 2 + 1);
  const last = Math.min(magnitude.length - 1, Math.floor(rangeHz.high / fineBinHz));
  for (let k = Math.ceil(rangeHz.low / fineBinHz); k <= last; k++) magnitude[k] = smooth(k * fineBinHz);
  return { rangeHz, magnitude, ends: { low: smooth(rangeHz.low), high: smooth(rangeHz.high) }, clearness };
}

/** The guess is asked this finely, share of the frequency, and joined by geometric steps: true to 0.001 dB. */
const GUESS_STEP = 1 / 128;

/** The magnitude on all fine bins: outside its range it follows the guess, joined on at either end. */
function continuedMagnitude(
  { magnitude, rangeHz, ends, rateHz, size, finer }: MeasuredResponse,
  outsideDb: (fHz: number) => number,
): Float64Array {
  const binHz = rateHz / (size * finer);
  const amplitude = (fHz: number): number => 10 ** (outsideDb(fHz) / 20);
  const firstMeasured = Math.ceil(rangeHz.low / binHz);
  const firstAbove = Math.floor(rangeHz.high / binHz) + 1;
  const continued = magnitude.slice();
  fillGuess(
    continued,
    0,
    Math.min(firstMeasured, continued.length),
    binHz,
    ends.low / amplitude(rangeHz.low),
    amplitude,
  );
  fillGuess(continued, firstAbove, continued.length, binHz, ends.high / amplitude(rangeHz.high), amplitude);
  // The logarithm has no value at 0 Hz: what stands there is taken a little above it.
  if (firstMeasured > 0) continued[0] = (ends.low / amplitude(rangeHz.low)) * amplitude(0.005 * finer * binHz);
  return continued;
}

function fillGuess(
  into: Float64Array,
  from: number,
  to: number,
  binHz: number,
  scale: number,
  amplitude: (fHz: number) => number,
): void {
  for (let k = Math.max(1, from); k < to; ) {
    const step = Math.max(1, Math.min(Math.floor(k * GUESS_STEP), to - k));
    const here = scale * amplitude(k * binHz);
    const ratio = step > 1 ? ((scale * amplitude((k + step) * binHz)) / here) ** (1 / step) : 1;
    fillGeometric(into, k, step, here, ratio);
    k += step;
  }
}

function fillGeometric(into: Float64Array, from: number, count: number, first: number, ratio: number): void {
  let value = first;
  for (let k = from; k < from + count; k++) {
    into[k] = value;
    value *= ratio;
  }
}
