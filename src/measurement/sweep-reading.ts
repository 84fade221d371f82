// One sweep of a take, read: response, arrival, polarity, pass band, distortion, bands, and the noise in each.
import { dbFromPower } from '../base/decibel.ts';
import { earlySound } from './early-sound/early-sound.ts';
import { foundBand, onsetBand, SHOWN_SNR } from './found-band.ts';
import { octaveGrid, thirdOctaves } from './grids.ts';
import { HIGHEST_ORDER, harmonicOrders } from './harmonics.ts';
import type { NoiseDensity } from './noise-density.ts';
import { meanPower } from './power-curve.ts';
import type { BandLevels, Curve, Distortion, PassBand, Polarity, Response } from './reading.ts';
import { isCut, soughtArrival, type ToldArrival } from './sought-arrival.ts';
import type { SweepImpulse } from './sweep-impulse.ts';
import type { SweepQuestion } from './sweep-question.ts';
import {
  type GridResponse,
  gridResponse,
  type LinearResponse,
  linearResponse,
  longView,
  noisePower,
  trustedRange,
} from './sweep-response.ts';
import { toldPolarity } from './told-polarity.ts';

export interface SweepReading extends ToldArrival {
  response: Response;
  band: PassBand;
  distortion: Distortion;
  bands: BandLevels;
  snr: { fHz: number[]; db: Curve };
  /** Arrival after the sweep's own place on the markers' time line, s: for windows and phase. */
  originS: number;
  polarity: Polarity;
  /** Where the driver is measured well, Hz. */
  measuredHz: { low: number; high: number };
  /** Median signal to noise over the driver's band, dB. */
  bandSnrDb: number | null;
  /** Energy of the direct response over what stands in an equally long stretch just before it, dB. */
  compactnessDb: number;
}

/** Level uncertain by half a decibel and less: the least signal to noise of a valid point. */
const VALID_SNR = 10;

export function sweepReading(question: SweepQuestion): SweepReading {
  const { impulse, noise } = question;
  const peakS = question.anchor || question.referenceS !== undefined ? 0 : loudestS(impulse);
  const anchorS = question.referenceS ?? question.anchor?.arrival.arrivalS ?? peakS;
  const timed = question.anchor !== null || question.referenceS !== undefined;
  const searchS = timed
    ? { from: anchorS + question.expectArrivalS.from, to: anchorS + question.expectArrivalS.to }
    : { from: peakS - 0.012, to: peakS + 0.012 };
  // First look: a window wide enough for any arrival in the search range finds the band.
  const wide = linearResponse(
    impulse,
    { fromS: searchS.from - 0.005, toS: searchS.to + Math.min(0.2, impulse.tailS), riseS: 0.001, fallS: 0.05 },
    0,
  );
  const found = foundBand(question, wide);
  const early = earlySound(
    impulse,
    { low: impulse.shape.fromHz, high: impulse.toHz },
    onsetBand(question, found),
    searchS,
  );
  const sought = soughtArrival(question, found, searchS, anchorS, early);
  const originS = sought.arrival.arrivalS;
  const linear = linearResponse(impulse, longView(originS, impulse), originS);
  const fHz = octaveGrid(impulse.shape.fromHz, impulse.toHz, 48);
  const grid = gridResponse(linear, fHz, question.smoothOctaves, noise);
  const final = foundBand(question, linear);
  return {
    response: responseOf(grid, question),
    band: final.band,
    distortion: distortionOf(question, originS),
    bands: bandLevels(linear, noise, question),
    snr: snrOf(linear, noise),
    originS,
    ...sought.answer,
    polarity: isCut(question, final)
      ? { sign: 0, confidence: 0, reason: 'the microphone’s path cuts into the driver’s band' }
      : toldPolarity(final, sought.signed, early),
    measuredHz: final.measuredHz,
    bandSnrDb: final.snrDb,
    compactnessDb: compactness(impulse, originS),
  };
}

/** Time of the largest value of the impulse response about time zero, s. */
function loudestS(impulse: SweepImpulse): number {
  const reach = Math.round(0.08 * impulse.rateHz);
  let best = 0;
  for (let n = -reach; n <= reach; n++) {
    const at = (n + impulse.size) % impulse.size;
    if (Math.abs(impulse.samples[at]) > Math.abs(impulse.samples[(best + impulse.size) % impulse.size])) best = n;
  }
  return best / impulse.rateHz;
}

function responseOf(grid: GridResponse, question: SweepQuestion): Response {
  const response: Response = { fHz: grid.fHz, levelDb: [], phaseDeg: [], valid: [], levelSigmaDb: [] };
  grid.fHz.forEach((f, i) => {
    const floor = grid.noise[i];
    const snr = floor === null ? Number.POSITIVE_INFINITY : floor > 0 ? grid.power[i] / floor - 1 : 1e9;
    const shown = snr > SHOWN_SNR && grid.power[i] > 0;
    const signal = floor !== null && snr < VALID_SNR ? grid.power[i] - floor : grid.power[i];
    response.levelDb.push(shown ? dbFromPower(signal) + question.correctionDb(f) : null);
    const inside = f >= (question.recordedHz?.low ?? 0) && f <= (question.recordedHz?.high ?? Number.POSITIVE_INFINITY);
    response.valid.push(shown && snr >= VALID_SNR && grid.trusted[i] && inside);
    response.phaseDeg.push(snr >= VALID_SNR ? (Math.atan2(grid.im[i], grid.re[i]) * 180) / Math.PI : null);
    response.levelSigmaDb.push(shown && floor !== null ? 8.686 * Math.sqrt(1 / (2 * snr)) : null);
  });
  return response;
}

function snrOf(response: LinearResponse, noise: NoiseDensity | null): { fHz: number[]; db: Curve } {
  const { lowHz, highHz } = trustedRange(response.impulse);
  const fHz = thirdOctaves(lowHz / 1.12, highHz * 1.12);
  return {
    fHz,
    db: fHz.map((f) => {
      if (!noise) return null;
      const floor = noisePower(response, noise, f, 1 / 3);
      const signal = meanPower(response.curve, f, 1 / 3) / floor - 1;
      return floor > 0 ? Math.max(-20, dbFromPower(Math.max(signal, 1e-3))) : null;
    }),
  };
}

function bandLevels(response: LinearResponse, noise: NoiseDensity | null, question: SweepQuestion): BandLevels {
  const { lowHz, highHz } = trustedRange(response.impulse);
  const fHz = thirdOctaves(lowHz, highHz);
  return {
    fHz,
    levelDb: fHz.map((f) => {
      const power = meanPower(response.curve, f, 1 / 3);
      const floor = noise ? noisePower(response, noise, f, 1 / 3) : 0;
      return power > (1 + VALID_SNR) * floor && power > 0 ? dbFromPower(power) + question.correctionDb(f) : null;
    }),
  };
}

function distortionOf(question: SweepQuestion, arrivalS: number): Distortion {
  const { impulse, noise } = question;
  const fHz = octaveGrid(impulse.shape.fromHz * 1.1, impulse.toHz / 2, 48);
  const orders = harmonicOrders(impulse, arrivalS, fHz, noise, 1 / 48);
  const distortion: Distortion = {
    fHz,
    thdPct: [],
    h2Pct: [],
    h3Pct: [],
    h4Pct: [],
    h5Pct: [],
    floorPct: [],
    valid: [],
  };
  const named = [distortion.h2Pct, distortion.h3Pct, distortion.h4Pct, distortion.h5Pct];
  fHz.forEach((f, i) => {
    let square = 0;
    let floor = 0;
    let known = 0;
    let floored = true;
    for (let o = 0; o < HIGHEST_ORDER - 1; o++) {
      const ratio = orders[o].ratio[i];
      const least = orders[o].floor[i];
      // The microphone's own response at the harmonic against the fundamental.
      const tilt = 10 ** ((question.correctionDb((o + 2) * f) - question.correctionDb(f)) / 20);
      if (ratio === null) {
        named[o].push(null);
        continue;
      }
      known++;
      square += (ratio * tilt) ** 2;
      if (least === null) floored = false;
      else floor += (least * tilt) ** 2;
      const bound = least !== null && ratio < least * 3.162;
      named[o].push(100 * tilt * (bound ? Math.max(ratio, least) * 1.413 : ratio));
    }
    const clear = known > 0 && floored && square >= 10 * floor;
    distortion.floorPct.push(known > 0 && floored ? 100 * Math.sqrt(floor) : null);
    distortion.thdPct.push(known === 0 ? null : 100 * Math.sqrt(clear ? square : Math.max(square, floor) * 2));
    distortion.valid.push(clear);
  });
  return distortion;
}

/** Energy of 60 ms after the arrival over that of the 60 ms before it, dB: a sweep that was there is compact. */
function compactness(impulse: SweepImpulse, arrivalS: number): number {
  const zero = Math.round(arrivalS * impulse.rateHz);
  const length = Math.round(0.06 * impulse.rateHz);
  const gap = Math.round(0.012 * impulse.rateHz);
  const energy = (from: number): number => {
    let sum = 0;
    for (let n = from; n < from + length; n++)
      sum += impulse.samples[((n % impulse.size) + impulse.size) % impulse.size] ** 2;
    return sum;
  };
  const before = energy(zero - gap - length);
  return before > 0 ? dbFromPower(Math.max(energy(zero - gap) / before, 1e-9)) : 200;
}
