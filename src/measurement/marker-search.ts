// Where in a recording chirps sound: matched filtering, normalised so that 1 means "identical".

import { linearChirp } from '../signals/chirp.ts';
import { complexFft, inverseComplexFft, powerOfTwoFrom, realFft } from '../signals/fft.ts';
import type { Recording } from '../signals/recording.ts';

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
const SPACING_S = 0.05;
/** Below this the recording is digital silence. */
const SILENCE = 1e-7;

/**
 * Peaks of the normalised correlation of one channel with each chirp.
 *
 * The local energy it is divided by is taken inside the chirps' band only, so that rumble does not hide a marker.
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
  const hop = size - longest;
  const lowHz = 0.9 * Math.min(...kinds.flatMap((kind) => [kind.fromHz, kind.toHz]));
  const highHz = 1.1 * Math.max(...kinds.flatMap((kind) => [kind.fromHz, kind.toHz]));
  const lowBin = Math.max(1, Math.floor((lowHz * size) / effectiveRateHz));
  const highBin = Math.min(size / 2 - 1, Math.ceil((highHz * size) / effectiveRateHz));
  const templates = chirps.map((chirp) => realFft(chirp, size));
  const energies = chirps.map((chirp) => chirp.reduce((sum, x) => sum + x * x, 0));
  const spacing = Math.round(SPACING_S * effectiveRateHz);
  const peaks: ChirpPeak[][] = kinds.map(() => []);
  const block = new Float64Array(size);
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  const energy = new Float64Array(size + 1);
  const score = new Float64Array(hop);
  const spectrum = { re: new Float64Array(size / 2 + 1), im: new Float64Array(size / 2 + 1) };
  if (lowBin >= highBin) return peaks;
  for (let start = -longest; start < recording.frames; start += hop) {
    recording.readChannel(channel, start, size, block);
    realFft(block, size, spectrum);
    // Energy of the band-limited sound, from its analytic signal: half the squared envelope.
    re.fill(0);
    im.fill(0);
    for (let k = lowBin; k <= highBin; k++) {
      re[k] = 2 * spectrum.re[k];
      im[k] = 2 * spectrum.im[k];
    }
    inverseComplexFft(re, im);
    for (let n = 0; n < size; n++) energy[n + 1] = energy[n] + 0.5 * (re[n] * re[n] + im[n] * im[n]);
    for (let i = 0; i < kinds.length; i++) {
      const template = templates[i];
      re.fill(0);
      im.fill(0);
      for (let k = lowBin; k <= highBin; k++) {
        const yr = 2 * spectrum.re[k];
        const yi = 2 * spectrum.im[k];
        re[k] = yr * template.re[k] + yi * template.im[k];
        im[k] = yi * template.re[k] - yr * template.im[k];
      }
      inverseComplexFft(re, im);
      const length = chirps[i].length;
      const floor = SILENCE * SILENCE * length;
      for (let n = 0; n < hop; n++) {
        const local = energy[Math.min(size, n + length)] - energy[n];
        score[n] = local > floor ? Math.sqrt((re[n] * re[n] + im[n] * im[n]) / (local * energies[i])) : 0;
      }
      for (let n = 1; n < hop - 1; n++) {
        const s = score[n];
        if (s < WEAKEST_SCORE || s < score[n - 1] || s < score[n + 1]) continue;
        const bend = score[n - 1] - 2 * s + score[n + 1];
        const shift = bend < 0 ? (0.5 * (score[n - 1] - score[n + 1])) / bend : 0;
        keep(peaks[i], {
          position: start + n + shift,
          score: Math.min(1, s),
          amplitude: Math.hypot(re[n], im[n]) / energies[i],
        });
      }
    }
    onBlock(Math.min(1, (start + size) / recording.frames));
  }
  return peaks;

  function keep(list: ChirpPeak[], peak: ChirpPeak): void {
    const last = list[list.length - 1];
    if (last && peak.position - last.position < spacing) {
      if (peak.score > last.score) list[list.length - 1] = peak;
    } else list.push(peak);
  }
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
  const valueAt = (lag: number): number => {
    let sum = 0;
    for (let k = 0; k < size / 2; k++) {
      const angle = (2 * Math.PI * k * lag) / size;
      sum += crossRe[k] * Math.cos(angle) - crossIm[k] * Math.sin(angle);
    }
    return sum;
  };
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
