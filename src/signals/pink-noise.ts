// Pink noise, made as one period in the frequency domain: its spectrum is exact instead of approximate, and an analysis
// over whole periods has no random error left.
import { assertRange } from '../base/assert.ts';
import { amplitudeFromDb } from '../base/decibel.ts';
import { hash32, uniform } from '../base/random.ts';
import { inverseRealFft, realFft, type Spectrum } from './fft.ts';
import { analogCrossoverResponse, type Crossover } from './filters/crossover.ts';

/** What fixes a period of noise to the last sample. */
export interface PinkNoiseShape {
  /** 0 .. 2^32 - 1. */
  seed: number;
  /** Samples in one period, an even whole number 16 .. 4 194 304; powers of two are quick. */
  periodSamples: number;
  rateHz: number;
  /** Limits of the band, both included; outside it there is nothing at all. */
  fromHz: number;
  toHz: number;
  /** Peak over rms to stay under, 6 .. 20 dB; absent leaves the natural crest, about 13 dB. */
  crestLimitDb?: number | undefined;
  /** Filters that shape the band, to spare a driver: the magnitude of the analog crossover. */
  highPass?: Crossover | undefined;
  lowPass?: Crossover | undefined;
}

/** How the two sides of a stereo track go together. */
export type SideRelation = 'same' | 'opposite' | 'independent';

const CREST_ROUNDS = 60;
/** Clipping exactly at the limit would creep up to it from above for ever. */
const CLIP_UNDER_LIMIT = 0.97;

/** Magnitudes 1 / sqrt(f), shaped, for bins 1 .. N/2 - 1 within the band; 0 elsewhere. */
function magnitudes(shape: PinkNoiseShape): Float64Array {
  const { periodSamples, rateHz, fromHz, toHz } = shape;
  const wanted = new Float64Array(periodSamples / 2 + 1);
  const fHz = Float64Array.from(wanted, (_, k) => (k * rateHz) / periodSamples);
  const filters = [
    shape.highPass && analogCrossoverResponse(shape.highPass, 'high-pass', fHz),
    shape.lowPass && analogCrossoverResponse(shape.lowPass, 'low-pass', fHz),
  ];
  let any = false;
  for (let k = 1; k < periodSamples / 2; k++) {
    if (fHz[k] < fromHz || fHz[k] > toHz) continue;
    wanted[k] = 1 / Math.sqrt(fHz[k]);
    for (const filter of filters) if (filter) wanted[k] *= Math.hypot(filter.re[k], filter.im[k]);
    any ||= wanted[k] > 0;
  }
  if (!any) throw new RangeError(`the band must hold a bin of ${rateHz / periodSamples} Hz, got ${fromHz}..${toHz} Hz`);
  return wanted;
}

/** Scales to rms 1 in place and gives back the largest absolute sample. */
function toUnitRms(samples: Float64Array): number {
  let power = 0;
  let peak = 0;
  for (const value of samples) {
    power += value * value;
    peak = Math.max(peak, Math.abs(value));
  }
  const scale = 1 / Math.sqrt(power / samples.length);
  for (let n = 0; n < samples.length; n++) samples[n] *= scale;
  return peak * scale;
}

/** Gives the spectrum its wanted magnitudes back and leaves its phases as they are. */
function restoreMagnitudes(spectrum: Spectrum, wanted: Float64Array): void {
  const { re, im } = spectrum;
  for (let k = 0; k < wanted.length; k++) {
    const found = Math.hypot(re[k], im[k]);
    const scale = found > 0 ? wanted[k] / found : 0;
    re[k] = found > 0 ? re[k] * scale : wanted[k];
    im[k] *= scale;
  }
}

/**
 * One period of pink noise at rms 1; repeat it end to end, there is no seam.
 *
 * Bin k in the band has magnitude 1 / sqrt(f_k) (times the shaping filters) and phase 2 pi uniform(seed, k - 1). With a
 * crest limit: clip a little under it, keep the phases that come of it, restore the magnitudes, and again, until the
 * peak is under the limit or 60 rounds are over (then the lowest peak met is returned). The spectrum stays exact: only
 * phases were touched.
 *
 * @param shape  seed 0 .. 2^32 - 1; periodSamples even, 16 .. 4 194 304; rateHz 1 .. 1 000 000; 0 < fromHz <= toHz;
 *   the band must hold at least one bin below rateHz / 2
 * @returns `periodSamples` samples, mean 0, rms 1
 * @throws RangeError  an argument outside its range
 * Accuracy: third-octave levels within 0.001 dB of pink; samples to 1e-6 before crest limiting (test/vectors/signals.json)
 * Source: M. R. Schroeder, Synthesis of Low-Peak-Factor Signals, IEEE Trans. Inf. Theory 16, 1970, 85-89 (phases are
 *   free); E. Van der Ouderaa, J. Schoukens, J. Renneboog, Peak Factor Minimization of Input and Output Signals of
 *   Linear Systems, IEEE Trans. Instrum. Meas. 37(2), 1988 (the clipping loop).
 * @example pinkNoise({ seed: 1, periodSamples: 131072, rateHz: 48000, fromHz: 20, toHz: 20000, crestLimitDb: 12 })
 */
export function pinkNoise(shape: PinkNoiseShape): Float64Array {
  const { seed, periodSamples, rateHz, fromHz, toHz, crestLimitDb } = shape;
  assertRange('seed', seed, 0, 4294967295);
  if (!Number.isInteger(seed)) throw new RangeError(`seed must be a whole number, got ${seed}`);
  assertRange('periodSamples', periodSamples, 16, 4194304);
  if (periodSamples % 2 !== 0) throw new RangeError(`periodSamples must be an even whole number, got ${periodSamples}`);
  assertRange('rateHz', rateHz, 1, 1e6);
  assertRange('toHz', toHz, 1e-3, 1e6);
  assertRange('fromHz', fromHz, 1e-3, toHz);
  if (crestLimitDb !== undefined) assertRange('crestLimitDb', crestLimitDb, 6, 20);
  const wanted = magnitudes(shape);
  const re = new Float64Array(wanted.length);
  const im = new Float64Array(wanted.length);
  for (let k = 1; k < wanted.length - 1; k++) {
    const angle = 2 * Math.PI * uniform(seed, k - 1);
    re[k] = wanted[k] * Math.cos(angle);
    im[k] = wanted[k] * Math.sin(angle);
  }
  const natural = inverseRealFft(re, im, periodSamples);
  const peak = toUnitRms(natural);
  if (crestLimitDb === undefined) return natural;
  return withCrestUnder(natural, peak, amplitudeFromDb(crestLimitDb), wanted);
}

function withCrestUnder(natural: Float64Array, peak: number, limit: number, wanted: Float64Array): Float64Array {
  const size = natural.length;
  let samples = natural;
  let best = natural;
  let bestPeak = peak;
  const clipAt = CLIP_UNDER_LIMIT * limit;
  for (let round = 0; round < CREST_ROUNDS && bestPeak > limit; round++) {
    const clipped = samples.map((value) => Math.max(-clipAt, Math.min(clipAt, value)));
    const spectrum = realFft(clipped, size);
    restoreMagnitudes(spectrum, wanted);
    samples = inverseRealFft(spectrum.re, spectrum.im, size);
    const roundPeak = toUnitRms(samples);
    if (roundPeak < bestPeak) {
      best = samples;
      bestPeak = roundPeak;
    }
  }
  return best;
}

/**
 * One period of pink noise for each side of a stereo track.
 *
 * `same` and `opposite` (right side inverted) tell by their level at the seat whether left and right are in polarity;
 * `independent` gives the right side noise of another seed, derived from the first.
 *
 * @returns left is `pinkNoise(shape)`; both rms 1
 * @throws RangeError  as `pinkNoise`, and for a relation that does not exist
 */
export function pinkNoisePair(
  shape: PinkNoiseShape,
  relation: SideRelation,
): { left: Float64Array; right: Float64Array } {
  const left = pinkNoise(shape);
  switch (relation) {
    case 'same':
      return { left, right: left.slice() };
    case 'opposite':
      return { left, right: left.map((value) => -value) };
    case 'independent': {
      // Any far place of the sequence will do; a seed that happened to map onto itself would not be independent.
      const other = hash32(shape.seed, 0x7fffffff);
      return { left, right: pinkNoise({ ...shape, seed: other === shape.seed ? other ^ 1 : other }) };
    }
    default:
      throw new RangeError(`relation must be same, opposite or independent, got ${String(relation)}`);
  }
}
