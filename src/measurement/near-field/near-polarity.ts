// Which way a driver first moves, heard from a few centimetres.
import { correlationAt, topOf, type WhitenedResponse, whitenedResponse } from '../arrival-time.ts';
import type { NoiseDensity } from '../noise-density.ts';
import type { Polarity } from '../reading.ts';
import { type SweepImpulse, windowed } from '../sweep-impulse.ts';
import { noisePower } from '../sweep-response.ts';

export interface NearPolarityQuestion {
  impulse: SweepImpulse;
  background: NoiseDensity | null;
  /** Where the driver dominates what is heard, Hz. */
  ownHz: { low: number; high: number };
  /** Shape of the driver behind its channel's filters, dB, any constant. */
  shapeDb: (fHz: number) => number;
  /** Its phase, radians. */
  modelPhase: (fHz: number) => number;
}

/** Where the driver's sound may lie about the markers', s: delays set in the processor included. */
const SEARCH_S = { from: -0.018, to: 0.014 };
/** Periods of the lowest frequency kept after the arrival. */
const PERIODS_KEPT = 3;
const LEAST_OCTAVES = 0.6;
/** From here on a band is so narrow that the half periods beside the top are nearly as high. */
const CLEAR_AMBIGUITY = 0.7;
/** Furthest that the wave may stand from its crest where its swell is highest, as cosine (35 degrees), and when it is sure. */
const LEAST_CREST = 0.82;
const SURE_CREST = 0.95;
const LEAST_SWELL = 0.85;
const LEAST_COHERENCE = 0.6;
const SURE_AMBIGUITY = 0.6;
const SURE_COHERENCE = 0.8;
const MOST_RIVALRY = 1.5;
const LEAST_LOWER = 0.3;

/** Frequencies at which the model is asked, an octave. */
const MODEL_PER_OCTAVE = 24;
/** The model must explain at least this share of the phase to be heard. */
const LEAST_MODEL = 0.6;

/**
 * Second opinion: the sign that the filters' own phase gives, with the delay free within half a period about the arrival.
 *
 * @returns 0 where the model does not fit
 */
function byModel({ impulse, ownHz, modelPhase }: NearPolarityQuestion, arrivalS: number): 1 | -1 | 0 {
  const afterS = Math.min(impulse.tailS, Math.max(0.004, PERIODS_KEPT / ownHz.low));
  const stretch = windowed(impulse, {
    fromS: arrivalS - 0.006,
    toS: arrivalS + afterS,
    riseS: 0.003,
    fallS: 0.6 * afterS,
  });
  const count = Math.max(6, Math.round(MODEL_PER_OCTAVE * Math.log2(ownHz.high / ownHz.low)));
  const points = Array.from({ length: count }, (_, i) => {
    const fHz = ownHz.low * (ownHz.high / ownHz.low) ** ((i + 0.5) / count);
    const { re, im } = goertzel(stretch.samples, fHz / impulse.rateHz);
    // Counted from the arrival.
    const turn = 2 * Math.PI * fHz * (arrivalS - stretch.firstS);
    return { fHz, phase: Math.atan2(im, re) + turn - modelPhase(fHz) };
  });
  const middleHz = Math.sqrt(ownHz.low * ownHz.high);
  let best = { size: 0, re: 0 };
  for (let step = -24; step <= 24; step++) {
    const delayS = (step / 24) * (0.6 / middleHz);
    let re = 0;
    let im = 0;
    for (const { fHz, phase } of points) {
      const angle = phase + 2 * Math.PI * fHz * delayS;
      re += Math.cos(angle) / count;
      im += Math.sin(angle) / count;
    }
    if (Math.abs(re) > best.size && Math.abs(re) > Math.abs(im)) best = { size: Math.abs(re), re };
  }
  if (best.size < LEAST_MODEL) return 0;
  return best.re > 0 ? 1 : -1;
}

/** Fourier sum of a stretch at one frequency, in turns a sample. */
function goertzel(samples: Float64Array, turns: number): { re: number; im: number } {
  const w = 2 * Math.PI * turns;
  const twice = 2 * Math.cos(w);
  let one = 0;
  let two = 0;
  for (let n = 0; n < samples.length; n++) {
    const now = samples[n] + twice * one - two;
    two = one;
    one = now;
  }
  // y = x0 + ... in the form of G. Goertzel, Am. Math. Monthly 65, 1958, turned back to the first sample.
  const re = one - two * Math.cos(w);
  const im = two * Math.sin(w);
  const back = -w * (samples.length - 1);
  return { re: re * Math.cos(back) - im * Math.sin(back), im: re * Math.sin(back) + im * Math.cos(back) };
}

/** Correlation and its quadrature at one time, over their largest possible value. */
function waveAt(white: WhitenedResponse, timeS: number): { re: number; im: number } {
  let re = 0;
  let im = 0;
  let total = 0;
  for (let k = 1; k < white.re.length; k++) {
    if (white.weight[k] === 0) continue;
    const angle = (2 * Math.PI * k * white.rateHz * (timeS + white.zeroIndex / white.rateHz)) / white.size;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    re += white.re[k] * c - white.im[k] * s;
    im += white.re[k] * s + white.im[k] * c;
    total += white.weight[k];
  }
  return total > 0 ? { re: re / total, im: im / total } : { re: 0, im: 0 };
}

/** A narrow band's sign: the wave must crest or dip where its swell is highest, not cross zero. */
function bySwell(white: WhitenedResponse, aboutS: number, cannotSay: (reason: string) => Polarity): Polarity {
  const periodS = 2 / (white.lowHz + white.highHz);
  let best = { re: 0, im: 0, size: 0 };
  for (let step = -40; step <= 40; step++) {
    const wave = waveAt(white, aboutS + (step / 40) * periodS);
    const size = Math.hypot(wave.re, wave.im);
    if (size > best.size) best = { ...wave, size };
  }
  const crest = best.size > 0 ? best.re / best.size : 0;
  if (best.size < LEAST_SWELL || Math.abs(crest) < LEAST_CREST) return cannotSay('both signs fit nearly equally well');
  return {
    sign: crest > 0 ? 1 : -1,
    confidence: Math.abs(crest) >= SURE_CREST ? 0.9 : 0.7,
    reason:
      Math.abs(crest) >= SURE_CREST
        ? 'sure: phase follows the magnitude'
        : 'likely: phase follows the magnitude roughly',
  };
}

/**
 * Sign of the path from the file to the recording, by correlation with the minimum phase of the band.
 *
 * The magnitude is taken as measured where the driver dominates and continued by its filters outside.
 *
 * @returns sign 0 where it cannot be said, with the reason
 * Source: as `arrivalTime`.
 */
export function nearPolarity(question: NearPolarityQuestion): Polarity {
  const { impulse, background, ownHz, shapeDb } = question;
  const cannotSay = (reason: string): Polarity => ({ sign: 0, confidence: 0, reason });
  if (Math.log2(ownHz.high / ownHz.low) < LEAST_OCTAVES) {
    return cannotSay('the driver dominates over too narrow a band');
  }
  const { rateHz } = impulse;
  const look = (searchS: { from: number; to: number }, afterS: number) => {
    const after = Math.min(afterS, impulse.tailS);
    const stretch = windowed(impulse, {
      fromS: searchS.from - 0.008,
      toS: searchS.to + after,
      riseS: 0.003,
      fallS: 0.6 * after,
    });
    const noise = background;
    return whitenedResponse(stretch.samples, {
      rateHz,
      zeroIndex: -Math.round(stretch.firstS * rateHz),
      bandHz: ownHz,
      measuredHz: ownHz,
      windowS: searchS,
      outsideDb: shapeDb,
      ...(noise
        ? {
            noisePower: (fHz: number) =>
              noisePower({ windowEnergy: stretch.energy, rateHz, impulse }, noise, fHz, 1 / 6),
          }
        : {}),
    });
  };
  const first = topOf(look(SEARCH_S, 0.1), SEARCH_S);
  if (first.atEdge) return cannotSay('no clear sound where the driver’s should be');
  const reachS = Math.max(0.0005, 0.75 / ownHz.low);
  const nearS = {
    from: Math.max(SEARCH_S.from, first.arrivalS - reachS),
    to: Math.min(SEARCH_S.to, first.arrivalS + reachS),
  };
  const white = look(nearS, Math.min(0.12, Math.max(0.004, PERIODS_KEPT / ownHz.low)));
  const top = topOf(white, nearS);
  if (top.atEdge) return cannotSay('no clear sound where the driver’s should be');
  if (top.ambiguity >= CLEAR_AMBIGUITY) {
    const told = bySwell(white, top.arrivalS, cannotSay);
    const model = byModel(question, top.arrivalS);
    return told.sign === -model ? cannotSay('the filters as planned would move it the other way') : told;
  }
  if (top.coherence < LEAST_COHERENCE || top.rivalry > MOST_RIVALRY) {
    return cannotSay('the phase does not follow the band: reflections, or filters that nobody told of');
  }
  if (byModel(question, top.arrivalS) === -top.sign)
    return cannotSay('the filters as planned would move it the other way');
  const lower = correlationAt(white, top.arrivalS, { low: 0, high: Math.min(2 * white.lowHz, white.highHz) });
  if (lower * top.sign < LEAST_LOWER) return cannotSay('the lowest octave of the band disagrees with the rest');
  const sure = top.ambiguity < SURE_AMBIGUITY && top.coherence >= SURE_COHERENCE && top.sign === first.sign;
  const clear = 1 - Math.max(0, top.ambiguity - 0.4) / 1.2;
  return {
    sign: top.sign,
    confidence: Math.max(0.5, Math.min(0.99, clear * (0.4 + 0.6 * top.coherence))),
    reason: sure ? 'sure: phase follows the magnitude' : 'likely: phase follows the magnitude roughly',
  };
}
