// Where in a recording chirps sound: matched filtering, normalised so that 1 means "identical".

import { linearChirp } from '../signals/chirp.ts';
import { complexFft, inverseComplexFft, powerOfTwoFrom, realFft } from '../signals/fft.ts';
import type { Recording } from '../signals/recording.ts';
import { bandGrid, bandSignal, REACH_POINTS, runningEnergy, squaredEnvelopeAt } from './band-envelope.ts';

/** One distinct chirp of a track; markers of the same shape share it whatever their level. */
export interface ChirpKind {
  fromHz: number;
  toHz: number;
  durationS: number;
}

/** A place where a chirp sounds. */
export interface ChirpPeak {
  /** First sample of the chirp in the recording, fractional. */
  position: number;
  /** Normalised correlation, 0 .. 1. */
  score: number;
  /** Amplitude of the chirp found, full scale = 1. */
  amplitude: number;
}

/** The weakest peak kept; noise alone that fills just the marker band reaches 0.15. */
const WEAKEST_SCORE = 0.12;
/** A top that falls between two points of the coarse grid shows up this much lower there, at worst. */
const BETWEEN_POINTS = 0.85;
const SPACING_S = 0.05;
/** Below this the recording is digital silence. */
const SILENCE = 1e-7;

/**
 * Peaks of the normalised correlation of one channel with each chirp.
 *
 * The local energy it is divided by is taken inside the chirps' band only, so that rumble does not hide a marker. The band
 * is a fraction of the recording's, so its envelope is looked through on a coarse grid; each peak kept is then read at the
 * recording's own samples.
 *
 * @param kinds        chirps of one frequency band (rising and falling), at least one
 * @param effectiveRateHz  recorded samples per second of the player's clock
 * @returns for each kind its peaks in time order, at least 50 ms apart
 * Source: G. L. Turin, An introduction to matched filters, IRE Trans. Inf. Theory 6(3), 1960; overlap-save blocks.
 */
export function chirpPeaks(
  recording: Recording,
  channel: number,
  kinds: ChirpKind[],
  effectiveRateHz: number,
  onBlock: (share: number) => void = () => {},
): ChirpPeak[][] {
  const chirps = kinds.map((kind) => linearChirp({ ...kind, levelDbfs: 0 }, effectiveRateHz));
  const longest = Math.max(...chirps.map((chirp) => chirp.length));
  const size = powerOfTwoFrom(4 * longest);
  const lowHz = 0.9 * Math.min(...kinds.flatMap((kind) => [kind.fromHz, kind.toHz]));
  const highHz = 1.1 * Math.max(...kinds.flatMap((kind) => [kind.fromHz, kind.toHz]));
  const lowBin = Math.max(1, Math.floor((lowHz * size) / effectiveRateHz));
  const highBin = Math.min(size / 2 - 1, Math.ceil((highHz * size) / effectiveRateHz));
  const peaks: ChirpPeak[][] = kinds.map(() => []);
  if (lowBin >= highBin) return peaks;
  const grid = bandGrid(size, lowBin, highBin);
  const guard = (REACH_POINTS + 2) * grid.step;
  const hop = grid.step * Math.floor((size - longest) / grid.step) - 2 * guard;
  const templates = chirps.map((chirp) => realFft(chirp, size));
  const spacing = Math.round(SPACING_S * effectiveRateHz);
  const block = new Float64Array(size);
  const spectrum = { re: new Float64Array(size / 2 + 1), im: new Float64Array(size / 2 + 1) };
  const work = new Float64Array(2 * grid.points);
  const energy = new Float64Array(grid.points + 1);
  const squares = new Float64Array(grid.points);
  for (let start = -longest - guard; start < recording.frames; start += hop) {
    recording.readChannel(channel, start, size, block);
    realFft(block, size, spectrum);
    runningEnergy(bandSignal(grid, spectrum, null, work), grid.step, energy);
    for (let i = 0; i < kinds.length; i++) {
      const pairs = bandSignal(grid, spectrum, templates[i], work);
      const sought = { pairs, energy, step: grid.step, length: chirps[i].length, chirpEnergy: energyOf(chirps[i]) };
      squareScores(sought, squares, guard / grid.step - 1, (guard + hop) / grid.step + 1);
      collectPeaks(sought, squares, start, guard, hop, spacing, peaks[i]);
    }
    onBlock(Math.min(1, (start + size) / recording.frames));
  }
  return peaks;
}

/** One block of the search for one chirp. */
interface SoughtChirp {
  /** Analytic correlation on the coarse grid. */
  pairs: Float64Array;
  energy: Float64Array;
  /** Samples from one grid point to the next. */
  step: number;
  /** Samples of the chirp, and the sum of their squares. */
  length: number;
  chirpEnergy: number;
}

function energyOf(samples: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < samples.length; n++) sum += samples[n] * samples[n];
  return sum;
}

/** Place in `energy` up to which the samples before `sample` count: a grid point stands for `step` samples about it. */
const edge = (sample: number, step: number): number => (sample - 0.5) / step + 0.5;

/** Squared scores at the grid points `from` .. `to`. */
function squareScores(
  { pairs, energy, step, length, chirpEnergy }: SoughtChirp,
  out: Float64Array,
  from: number,
  to: number,
): void {
  const floor = SILENCE * SILENCE * length;
  const begin = edge(0, step);
  const whole = Math.floor(edge(length, step));
  const part = edge(length, step) - whole;
  const last = energy.length - 1;
  for (let m = from; m <= to; m++) {
    const end = Math.min(last - 1, m + whole);
    const upTo = energy[end] + part * (energy[end + 1] - energy[end]);
    const local = upTo - energy[m] - begin * (energy[m + 1] - energy[m]);
    const square = pairs[2 * m] * pairs[2 * m] + pairs[2 * m + 1] * pairs[2 * m + 1];
    out[m] = local > floor ? square / (local * chirpEnergy) : 0;
  }
}

/** Tops of the squared scores that are high enough, read finely and put into `list`. */
function collectPeaks(
  sought: SoughtChirp,
  squares: Float64Array,
  start: number,
  guard: number,
  hop: number,
  spacing: number,
  list: ChirpPeak[],
): void {
  const { step } = sought;
  const least = (BETWEEN_POINTS * WEAKEST_SCORE) ** 2;
  const to = (guard + hop) / step;
  for (let m = guard / step; m < to; m++) {
    const square = squares[m];
    if (square < least || square < squares[m - 1] || square < squares[m + 1]) continue;
    const last = list[list.length - 1];
    const near = last !== undefined && start + (m + 1) * step - last.position < spacing;
    if (near && Math.sqrt(square) < BETWEEN_POINTS * last.score) continue;
    const peak = finePeak(sought, squares, start, m);
    if (peak.score < WEAKEST_SCORE) continue;
    if (last && peak.position - last.position < spacing) {
      if (peak.score > last.score) list[list.length - 1] = peak;
    } else list.push(peak);
  }
}

/** The peak by grid point `m`, from the scores at the three samples about its top. */
function finePeak(sought: SoughtChirp, squares: Float64Array, start: number, m: number): ChirpPeak {
  const { step } = sought;
  const bend = squares[m - 1] - 2 * squares[m] + squares[m + 1];
  const shift = bend < 0 ? (0.5 * (squares[m - 1] - squares[m + 1])) / bend : 0;
  let at = Math.round((m + shift) * step);
  let left = scoreAt(sought, at - 1);
  let score = scoreAt(sought, at);
  let right = scoreAt(sought, at + 1);
  for (let climbed = 0; climbed < step && Math.max(left, right) > score; climbed++) {
    const up = right > left ? 1 : -1;
    at += up;
    const beyond = scoreAt(sought, at + up);
    [left, score, right] = up > 0 ? [score, right, beyond] : [beyond, left, score];
  }
  const curve = left - 2 * score + right;
  return {
    position: start + at + (curve < 0 ? (0.5 * (left - right)) / curve : 0),
    score: Math.min(1, score),
    amplitude: Math.sqrt(squaredEnvelopeAt(sought.pairs, step, at)) / sought.chirpEnergy,
  };
}

/** Score at one sample of the block. */
function scoreAt({ pairs, energy, step, length, chirpEnergy }: SoughtChirp, sample: number): number {
  const local = energyTo(energy, edge(sample + length, step)) - energyTo(energy, edge(sample, step));
  const floor = SILENCE * SILENCE * length;
  return local > floor ? Math.sqrt(squaredEnvelopeAt(pairs, step, sample) / (local * chirpEnergy)) : 0;
}

function energyTo(energy: Float64Array, place: number): number {
  const whole = Math.min(Math.floor(place), energy.length - 2);
  return energy[whole] + (place - whole) * (energy[whole + 1] - energy[whole]);
}

/**
 * Complex correlation of the recording with a chirp around one expected place.
 *
 * @param position  expected first sample of the chirp (whole)
 * @param before,after  samples of correlation kept before and after `position`
 * @returns analytic correlation of length before + after, divided by the chirp's energy: magnitude 1 = full-scale chirp
 */
export function chirpCorrelation(
  recording: Recording,
  channel: number,
  chirp: Float64Array,
  position: number,
  before: number,
  after: number,
): { re: Float64Array; im: Float64Array } {
  const needed = before + after + chirp.length;
  const size = powerOfTwoFrom(needed);
  const block = new Float64Array(size);
  recording.readChannel(channel, position - before, needed, block);
  const spectrum = realFft(block, size);
  const template = realFft(chirp, size);
  let energy = 0;
  for (let n = 0; n < chirp.length; n++) energy += chirp[n] * chirp[n];
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  for (let k = 1; k < size / 2; k++) {
    const yr = (2 * spectrum.re[k]) / energy;
    const yi = (2 * spectrum.im[k]) / energy;
    re[k] = yr * template.re[k] + yi * template.im[k];
    im[k] = yi * template.re[k] - yr * template.im[k];
  }
  inverseComplexFft(re, im);
  return { re: re.slice(0, before + after), im: im.slice(0, before + after) };
}

/**
 * Delay of one analytic correlation against another of the same chirp, samples.
 *
 * The maximum of the real part of their cross-correlation, found on a grid of 1/16 sample and refined by a parabola.
 * Comparing received chirps with each other, not with the ideal one, keeps the car's reflections out of the answer.
 */
export function relativeDelay(
  one: { re: Float64Array; im: Float64Array },
  reference: { re: Float64Array; im: Float64Array },
  largest: number,
): { delay: number; similarity: number } {
  const size = powerOfTwoFrom(2 * one.re.length);
  const spectrumOf = (c: { re: Float64Array; im: Float64Array }): { re: Float64Array; im: Float64Array } => {
    const re = new Float64Array(size);
    const im = new Float64Array(size);
    re.set(c.re);
    im.set(c.im);
    complexFft(re, im);
    return { re, im };
  };
  const a = spectrumOf(one);
  const b = spectrumOf(reference);
  const crossRe = new Float64Array(size);
  const crossIm = new Float64Array(size);
  let energyA = 0;
  let energyB = 0;
  for (let k = 0; k < size; k++) {
    crossRe[k] = a.re[k] * b.re[k] + a.im[k] * b.im[k];
    crossIm[k] = a.im[k] * b.re[k] - a.re[k] * b.im[k];
    if (k >= size / 2) continue;
    energyA += a.re[k] * a.re[k] + a.im[k] * a.im[k];
    energyB += b.re[k] * b.re[k] + b.im[k] * b.im[k];
  }
  const scale = Math.sqrt(energyA * energyB) || 1;
  const lagRe = crossRe.slice();
  const lagIm = crossIm.slice();
  inverseComplexFft(lagRe, lagIm);
  let best = 0;
  const reach = Math.ceil(largest);
  for (let lag = -reach; lag <= reach; lag++) {
    const at = (lag + size) % size;
    if (lagRe[at] > lagRe[(best + size) % size]) best = lag;
  }
  const valueAt = (lag: number): number => crossCorrelationAt(crossRe, crossIm, lag);
  let step = 0.5;
  let at = best;
  let peak = valueAt(at);
  while (step > 1 / 64) {
    const left = valueAt(at - step);
    const right = valueAt(at + step);
    if (left > peak && left >= right) {
      peak = left;
      at -= step;
    } else if (right > peak) {
      peak = right;
      at += step;
    } else step /= 2;
  }
  const left = valueAt(at - 2 * step);
  const right = valueAt(at + 2 * step);
  const bend = left - 2 * peak + right;
  const delay = bend < 0 ? at + (step * (left - right)) / bend : at;
  return { delay, similarity: peak / scale };
}

/** Real part of a correlation at a fractional lag, from its spectrum's positive half. */
function crossCorrelationAt(re: Float64Array, im: Float64Array, lag: number): number {
  const angle = (2 * Math.PI * lag) / re.length;
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  // Turned on from bin to bin: over a few thousand bins that is true to 1e-12, and sparing two functions a bin.
  let turnRe = 1;
  let turnIm = 0;
  let sum = 0;
  for (let k = 0; k < re.length / 2; k++) {
    sum += re[k] * turnRe - im[k] * turnIm;
    const next = turnRe * c - turnIm * s;
    turnIm = turnRe * s + turnIm * c;
    turnRe = next;
  }
  return sum;
}
