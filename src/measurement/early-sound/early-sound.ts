// The first sound of a driver held against how filters begin: before the room has answered, sign and time are plainest.
import { inverseRealFft, powerOfTwoFrom, realFft } from '../../signals/fft.ts';
import { type CircularImpulse, windowed } from '../sweep-impulse.ts';
import { type OnsetBand, type OnsetModel, onsetModels } from './onset-models.ts';

export interface EarlySound {
  /** Begin of the best model re the impulse response's zero, s. */
  arrivalS: number;
  sign: 1 | -1;
  /** Correlation of sound and best model, 0 .. 1, everything before the arrival counted as unexplained. */
  explained: number;
  /** Unexplained by the best model over unexplained by the best of the other sign: 0 clear .. 1 both alike. */
  rivalry: number;
  /** Unexplained by the best turned over model with an all-pass over unexplained by the best: above 1 the plain one wins. */
  allPassRivalry: number;
  /** The best begins at an end of the window searched. */
  atEdge: boolean;
}

/** Length that is looked at, periods of the band's middle: more of it holds more of the room. */
const LENGTH_PERIODS = 0.7;
/** Share of it that counts fully; then it fades. */
const FULL_SHARE = 0.3;
/** Samples in a period of the upper end of the band. */
const PER_PERIOD = 12;
/** Periods of the band's upper end ahead of the onset, in which a limited band already moves. */
const LEAD_PERIODS = 1;
/** Quiet before the window that must stay quiet, s. */
const BEFORE_S = 0.004;
const LEAST_LENGTH = 6;

/**
 * Sign and time of a driver's first sound.
 *
 * Every model is laid at every instant of the window; sound before it counts against it, later sound counts less and
 * less. The best of either sign are compared: the ratio of what they leave unexplained is a likelihood ratio.
 *
 * @param stimulusHz  where the stimulus has energy
 * @param band     pass band as measured
 * @param searchS  where it may begin, s re the impulse response's zero
 * @param allPasses  whether models with an all-pass are tried; `allPassRivalry` says nothing without
 * @returns null where the band or the window holds nothing to compare
 * Source: generalised likelihood ratio over parametric onsets (own combination); H. L. Van Trees, Detection, Estimation,
 *   and Modulation Theory I, 1968, section 2.5.
 */
export function earlySound(
  impulse: CircularImpulse,
  stimulusHz: { low: number; high: number },
  band: OnsetBand,
  searchS: { from: number; to: number },
  { allPasses }: { allPasses: boolean } = { allPasses: true },
): EarlySound | null {
  const leadS = LEAD_PERIODS / band.high;
  const lengthS = leadS + LENGTH_PERIODS / Math.sqrt(band.low * band.high);
  const limit = limitOf(band, stimulusHz);
  const between = { from: searchS.from - leadS - BEFORE_S, to: searchS.to + lengthS };
  const { samples, rateHz, firstS } = limited(impulse, between, limit, PER_PERIOD * band.high);
  const lead = Math.round(leadS * rateHz);
  const length = Math.max(LEAST_LENGTH, Math.round(lengthS * rateHz));
  const weighted = Float64Array.from({ length }, (_, i) => weightAt((i - lead) / (length - lead)) ** 2);
  const first = Math.max(0, Math.round((searchS.from - firstS) * rateHz) - lead);
  const last = Math.min(samples.length - length, Math.round((searchS.to - firstS) * rateHz) - lead);
  if (last <= first) return null;
  const heard: Heard = { samples, weighted, first, energies: energiesFrom(samples, weighted, first, last) };
  const models = onsetModels({ band, limit, rateHz, lead, length, allPasses });
  const near = aroundBest(heard, models[0]);
  const best = { plus: noFit(), minus: noFit(), allPassPlus: noFit(), allPassMinus: noFit() };
  for (const model of models) {
    const found = bestFit(near, model);
    const [plus, minus] = model.allPass
      ? ([best.allPassPlus, best.allPassMinus] as const)
      : ([best.plus, best.minus] as const);
    if (found.plus.likeness > plus.likeness) Object.assign(plus, found.plus);
    if (found.minus.likeness > minus.likeness) Object.assign(minus, found.minus);
  }
  const sign = best.plus.likeness >= best.minus.likeness ? 1 : -1;
  const [own, other, turned] =
    sign === 1 ? [best.plus, best.minus, best.allPassMinus] : [best.minus, best.plus, best.allPassPlus];
  if (own.likeness <= 0) return null;
  const unexplained = (fit: Fit): number => Math.max(1e-6, 1 - fit.likeness ** 2);
  return {
    arrivalS: firstS + (own.at + lead + own.shift) / rateHz,
    sign,
    explained: own.likeness,
    rivalry: unexplained(own) / unexplained(other),
    allPassRivalry: unexplained(turned) / unexplained(own),
    atEdge: own.at <= first || own.at >= last,
  };
}

interface Fit {
  likeness: number;
  /** Sample at which the model begins, and the fraction of one that a parabola adds. */
  at: number;
  shift: number;
}

const noFit = (): Fit => ({ likeness: 0, at: 0, shift: 0 });

function weightAt(share: number): number {
  return share < FULL_SHARE ? 1 : 0.5 + 0.5 * Math.cos((Math.PI * (share - FULL_SHARE)) / (1 - FULL_SHARE));
}

/** Where the taper at the upper end begins, share of that end's frequency. */
const TAPER = 0.6;
/** How far under the stimulus the deconvolution still lets something through, octaves. */
const BELOW_OCTAVES = 1 / 3;

/** What limits the sound besides the driver: the ends of the stimulus and of what is trusted, the upper one softened. */
function limitOf(band: OnsetBand, stimulusHz: { low: number; high: number }): (fHz: number) => number {
  const low = stimulusHz.low * 2 ** -BELOW_OCTAVES;
  const high = band.openHigh ? band.high : stimulusHz.high;
  return (fHz) => {
    if (fHz <= low || fHz >= high) return 0;
    const share = Math.log2(high / fHz) / Math.log2(1 / TAPER);
    return share >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * share);
  };
}

/** The impulse response between two times, limited to its band, at a rate that the band needs. */
function limited(
  impulse: CircularImpulse,
  betweenS: { from: number; to: number },
  limit: (fHz: number) => number,
  leastRateHz: number,
): { samples: Float64Array; rateHz: number; firstS: number } {
  const edgeS = 0.002;
  const stretch = windowed(impulse, {
    fromS: betweenS.from - edgeS,
    toS: betweenS.to + edgeS,
    riseS: edgeS,
    fallS: edgeS,
  });
  const size = powerOfTwoFrom(stretch.samples.length);
  let kept = size;
  while (kept > 64 && (kept / 2 / size) * impulse.rateHz >= leastRateHz) kept /= 2;
  const { re, im } = realFft(stretch.samples, size);
  for (let k = 0; k <= kept / 2; k++) {
    const gain = limit((k * impulse.rateHz) / size);
    re[k] *= gain;
    im[k] *= gain;
  }
  const samples = inverseRealFft(re.slice(0, kept / 2 + 1), im.slice(0, kept / 2 + 1), kept);
  return { samples, rateHz: (impulse.rateHz * kept) / size, firstS: stretch.firstS };
}

/** What a model beginning at each instant has to explain: all before it, and its own stretch by weight. */
function energiesFrom(samples: Float64Array, weighted: Float64Array, first: number, last: number): Float64Array {
  const energies = new Float64Array(last - first + 1);
  let before = 0;
  for (let n = 0; n < first; n++) before += samples[n] * samples[n];
  for (let t = first; t <= last; t++) {
    let own = 0;
    for (let i = 0; i < weighted.length; i++) own += weighted[i] * samples[t + i] * samples[t + i];
    energies[t - first] = before + own;
    before += samples[t] * samples[t];
  }
  return energies;
}

/** Sound, and what a model that begins at `first + k` has to explain of it: `energies[k]`. */
interface Heard {
  samples: Float64Array;
  weighted: Float64Array;
  first: number;
  energies: Float64Array;
}

/** Instants at which the usual model is at least this much as like the sound as at its best are tried with all others. */
const NEAR_BEST = 0.5;

/** The part of the window in which it is worth trying every model. */
function aroundBest(heard: Heard, usual: OnsetModel): Heard {
  const likeness = likenesses(heard, usual);
  const highest = likeness.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const worth = (value: number): boolean => Math.abs(value) >= NEAR_BEST * highest;
  const from = Math.max(0, likeness.findIndex(worth) - usual.samples.length);
  const to = Math.min(likeness.length, likeness.findLastIndex(worth) + usual.samples.length);
  return { ...heard, first: heard.first + from, energies: heard.energies.subarray(from, to) };
}

/** Where one model fits best, as it is and turned over. */
function bestFit(heard: Heard, model: OnsetModel): { plus: Fit; minus: Fit } {
  const likeness = likenesses(heard, model);
  let highest = 0;
  let lowest = 0;
  for (let k = 1; k < likeness.length; k++) {
    if (likeness[k] > likeness[highest]) highest = k;
    if (likeness[k] < likeness[lowest]) lowest = k;
  }
  const fitAt = (k: number, sign: 1 | -1): Fit => ({
    likeness: sign * likeness[k],
    at: heard.first + k,
    shift: parabolaTop(likeness[k - 1], likeness[k], likeness[k + 1]),
  });
  return { plus: fitAt(highest, 1), minus: fitAt(lowest, -1) };
}

function likenesses({ samples, weighted, first, energies }: Heard, { samples: model }: OnsetModel): Float64Array {
  const shaped = model.map((value, i) => value * weighted[i]);
  let modelEnergy = 0;
  for (let i = 0; i < model.length; i++) modelEnergy += shaped[i] * model[i];
  const out = new Float64Array(energies.length);
  for (let k = 0; k < out.length; k++) {
    let sum = 0;
    for (let i = 0; i < shaped.length; i++) sum += shaped[i] * samples[first + k + i];
    const size = modelEnergy * energies[k];
    out[k] = size > 0 ? sum / Math.sqrt(size) : 0;
  }
  return out;
}

function parabolaTop(left: number | undefined, middle: number, right: number | undefined): number {
  if (left === undefined || right === undefined) return 0;
  const bend = left - 2 * middle + right;
  return bend === 0 ? 0 : Math.max(-0.5, Math.min(0.5, (0.5 * (left - right)) / bend));
}
