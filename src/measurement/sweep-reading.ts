// One sweep of a take, read: response, arrival, polarity, pass band, distortion, bands, and the noise in each.
import { dbFromPower } from '../base/decibel.ts';
import type { SweepSegment } from '../signals/track.ts';
import { type Anchor, anchorArrival, anchorShapeDb } from './anchor.ts';
import {
  type Arrival,
  type MeasuredResponse,
  measuredResponse,
  topOf,
  type WhitenedResponse,
  whitenedBy,
} from './arrival-time.ts';
import { type EarlySound, earlySound } from './early-sound/early-sound.ts';
import { earlierSoundS, heldAgainstOnset } from './early-sound/held-against-onset.ts';
import type { OnsetBand } from './early-sound/onset-models.ts';
import { octaveGrid, thirdOctaves } from './grids.ts';
import { HIGHEST_ORDER, harmonicOrders } from './harmonics.ts';
import type { NoiseDensity } from './noise-density.ts';
import { passBand } from './pass-band.ts';
import { meanPower } from './power-curve.ts';
import type { BandLevels, Curve, Distortion, PassBand, Polarity, Response } from './reading.ts';
import { type SweepImpulse, windowed } from './sweep-impulse.ts';
import {
  type GridResponse,
  gridResponse,
  type LinearResponse,
  linearResponse,
  longView,
  noisePower,
  trustedRange,
} from './sweep-response.ts';

export interface SweepQuestion {
  segment: SweepSegment;
  impulse: SweepImpulse;
  noise: NoiseDensity | null;
  /** The time reference; absent where the take has none for this side. */
  anchor: Anchor | null;
  /** Time of the electrical reference re the sweep's own place, s; then the anchor is not asked. */
  referenceS?: number;
  /** Arrival window against the reference, s. */
  expectArrivalS: { from: number; to: number };
  smoothOctaves: number;
  bandHz: { low: number; high: number } | null;
  /** Where the recorder's own path lets sound through, Hz; null: as far as the sweep goes. */
  recordedHz?: { low: number | null; high: number | null };
  /** Gain to add to every level, dB over frequency: microphone and calibration. */
  correctionDb: (fHz: number) => number;
}

export interface SweepReading {
  response: Response;
  band: PassBand;
  distortion: Distortion;
  bands: BandLevels;
  snr: { fHz: number[]; db: Curve };
  /** Arrival after the sweep's own place on the markers' time line, s: for windows and phase. */
  originS: number;
  arrivalS: number | null;
  arrivalSigmaS: number | null;
  /** Why there is no arrival. */
  noArrival: { code: string; message: string } | null;
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
const SHOWN_SNR = 2;
const ARRIVAL_SNR_DB = 15;
const LEAST_ANCHOR_SNR_DB = 20;
const LEAST_COHERENCE = 0.45;
const LATE_PERIODS = 0.03;
const SIGMA_PERIODS = 0.04;
/** How far under the band's level the response is still used for timing, dB, and how far over the noise, power ratio. */
const DEEPEST_DB = 25;
const CLEAR_SNR = 30;

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
      : polarityOf(final, sought.signed, early),
    measuredHz: final.measuredHz,
    bandSnrDb: final.snrDb,
    compactnessDb: compactness(impulse, originS),
  };
}

/** The band as its onset shows it: ends that were not reached are the sweep's. */
function onsetBand(question: SweepQuestion, { band, passHz }: FoundBand): OnsetBand {
  return { ...passHz, openHigh: question.bandHz === null && band.highHz === null };
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

interface FoundBand {
  levels: { fHz: number; levelDb: number }[];
  band: PassBand;
  /** The band's corners, or the ends of what was measured. */
  passHz: { low: number; high: number };
  measuredHz: { low: number; high: number };
  snrDb: number | null;
}

/** Pass band from the third-octave-smoothed response where it stands out of the noise. */
function foundBand(question: SweepQuestion, response: LinearResponse): FoundBand {
  const { impulse, noise } = question;
  const trusted = trustedRange(impulse);
  const fHz = octaveGrid(trusted.lowHz, trusted.highHz, 24);
  const smooth = gridResponse(response, fHz, 1 / 3, noise);
  const levels = smooth.power.map((power, i) => {
    const floor = smooth.noise[i] ?? 0;
    return power > (1 + SHOWN_SNR) * floor ? dbFromPower(Math.max(power - floor, 1e-30)) : null;
  });
  const band = passBand(fHz, levels);
  const passHz =
    question.bandHz ??
    noNarrowerThanSeen({
      low: band.lowHz ?? firstKnown(fHz, levels) ?? trusted.lowHz,
      high: band.highHz ?? firstKnown([...fHz].reverse(), [...levels].reverse()) ?? trusted.highHz,
    });
  // Around the band, as far as the response stays 15 dB over the noise and within 25 dB of the band's level.
  const inside = levels.filter(
    (level, i): level is number => level !== null && fHz[i] >= passHz.low && fHz[i] <= passHz.high,
  );
  inside.sort((x, y) => x - y);
  const median = inside[inside.length >> 1] ?? 0;
  const clear = (i: number): boolean => {
    const level = levels[i];
    const floor = smooth.noise[i];
    return level !== null && level > median - DEEPEST_DB && (floor === null || smooth.power[i] > CLEAR_SNR * floor);
  };
  let low = passHz.low;
  let high = passHz.high;
  for (let i = fHz.length - 1; i >= 0; i--) {
    if (fHz[i] >= passHz.low) continue;
    if (!clear(i)) break;
    low = fHz[i];
  }
  for (let i = 0; i < fHz.length; i++) {
    if (fHz[i] <= passHz.high) continue;
    if (!clear(i)) break;
    high = fHz[i];
  }
  const snrs = fHz
    .flatMap((f, i) => {
      const floor = smooth.noise[i];
      if (f < passHz.low || f > passHz.high || floor === null || floor <= 0) return [];
      return [dbFromPower(Math.max(smooth.power[i] / floor - 1, 1e-9))];
    })
    .sort((a, b) => a - b);
  const known = fHz.flatMap((f, i) => (levels[i] === null ? [] : [{ fHz: f, levelDb: levels[i] as number }]));
  return {
    levels: known,
    band,
    passHz,
    measuredHz: { low, high },
    snrDb: snrs.length > 0 ? snrs[snrs.length >> 1] : null,
  };
}

/** A band seen through third-octave smoothing is a third of an octave wide at least. */
function noNarrowerThanSeen({ low, high }: { low: number; high: number }): { low: number; high: number } {
  if (high > low * 2 ** (1 / 3)) return { low, high };
  const middle = Math.sqrt(low * high);
  return { low: middle * 2 ** (-1 / 6), high: middle * 2 ** (1 / 6) };
}

function firstKnown(fHz: number[], levels: (number | null)[]): number | null {
  const at = levels.findIndex((level) => level !== null);
  return at < 0 ? null : fHz[at];
}

/**
 * Falls of a driver beyond where it was measured, dB per octave.
 *
 * What the response does near its corners is measured; this is what it tends to far out. Above: two filter orders and
 * the cone. Below: a closed box and a filter less what the cabin lifts; how much that is cannot be known from the take,
 * so time and polarity are asked of three guesses.
 */
const FALL_HIGH_DB = 24;
const FALL_LOW_DB = 12;
/** The fall goes on getting steeper below the lowest octave that was measured, by about this much. */
const BEYOND_EDGE_DB = 7;
const STEEPEST_DB = 36;

/** Slope of the smoothed response over the lowest two thirds of an octave that are measured, dB per octave. */
function lowEdgeSlope(found: FoundBand): number {
  const points = found.levels.filter(({ fHz }) => fHz >= found.measuredHz.low && fHz <= found.measuredHz.low * 1.6);
  if (points.length < 3) return FALL_LOW_DB;
  const octaves = points.map(({ fHz }) => Math.log2(fHz));
  const meanOctave = octaves.reduce((sum, x) => sum + x, 0) / octaves.length;
  const meanDb = points.reduce((sum, { levelDb }) => sum + levelDb, 0) / points.length;
  let product = 0;
  let square = 0;
  octaves.forEach((x, i) => {
    product += (x - meanOctave) * (points[i].levelDb - meanDb);
    square += (x - meanOctave) ** 2;
  });
  return product / square;
}

function driverShapeDb(found: FoundBand, fallLowDb: number): (fHz: number) => number {
  const { measuredHz } = found;
  return (fHz) =>
    fHz < measuredHz.low
      ? -fallLowDb * Math.log2(measuredHz.low / fHz)
      : fHz > measuredHz.high
        ? -FALL_HIGH_DB * Math.log2(fHz / measuredHz.high)
        : 0;
}

/** Octaves at the top of a wide band that time it; what lies below only needs a longer, more reverberant window. */
const TIMING_OCTAVES = 3;

/** The arrival of a wide-band driver, taken anew from its uppermost octaves when those speak more clearly. */
function sharpened(
  question: SweepQuestion,
  found: FoundBand,
  searchS: { from: number; to: number },
  arrival: Arrival,
): Arrival {
  const { low, high } = found.measuredHz;
  const upper = { low: high / 2 ** TIMING_OCTAVES, high };
  if (arrival.atEdge || upper.low < 2 * low) return arrival;
  const reachS = 1 / upper.low;
  const near = {
    from: Math.max(searchS.from, arrival.arrivalS - reachS),
    to: Math.min(searchS.to, arrival.arrivalS + reachS),
  };
  const closer = twoLooks(question, upper, upper, near, driverShapeDb({ ...found, measuredHz: upper }, 0)).arrival;
  return closer.coherence > arrival.coherence && !closer.atEdge ? closer : arrival;
}

/** The recorder's own band ends inside the driver's, or so close to it that its filter's delay reaches in. */
function isCut({ recordedHz }: SweepQuestion, { passHz }: FoundBand): boolean {
  const { low = null, high = null } = recordedHz ?? {};
  return (low !== null && low > passHz.low / 1.6) || (high !== null && high < passHz.high * 1.3);
}

/** Room after the window that the first look takes in, s. */
const WHOLE_AFTER_S = 0.12;

interface Sought {
  arrival: Arrival;
  /** Sign and its doubts, by the guess about the lower end that leaves the flattest phase. */
  signed: { arrival: Arrival; white: WhitenedResponse; certain: boolean };
  answer: Pick<SweepReading, 'arrivalS' | 'arrivalSigmaS' | 'noArrival'>;
}

function soughtArrival(
  question: SweepQuestion,
  found: FoundBand,
  searchS: { from: number; to: number },
  anchorS: number,
  early: EarlySound | null,
): Sought {
  const { anchor } = question;
  const steepness = Math.min(STEEPEST_DB, Math.max(FALL_LOW_DB, lowEdgeSlope(found) + BEYOND_EDGE_DB));
  const whole = measured(question, found.passHz, found.measuredHz, searchS, WHOLE_AFTER_S);
  const looks = [FALL_LOW_DB, steepness, steepness + FALL_LOW_DB].map((fallLowDb) =>
    twoLooks(question, found.passHz, found.measuredHz, searchS, driverShapeDb(found, fallLowDb), whole),
  );
  const flattest = looks.reduce((best, look) => (look.arrival.coherence > best.arrival.coherence ? look : best));
  const agreeing = looks.filter((look) => look.arrival.sign === flattest.arrival.sign);
  // The gentlest fall that agrees in sign comes nearest to what a cabin leaves (docs/accuracy.md).
  const arrival = sharpened(question, found, searchS, agreeing[0].arrival);
  const times = agreeing.map((look) => look.arrival.arrivalS);
  const spreadS = Math.max(...times) - Math.min(...times);
  const rivals = looks.filter((look) => look.arrival.coherence > 0.9 * flattest.arrival.coherence);
  const signed = { ...flattest, certain: rivals.every((look) => look.arrival.sign === flattest.arrival.sign) };
  const withheld = (code: string, message: string): Sought => ({
    arrival,
    signed,
    answer: { arrivalS: null, arrivalSigmaS: null, noArrival: { code, message } },
  });
  if (found.snrDb !== null && found.snrDb < ARRIVAL_SNR_DB) {
    return withheld('low-snr', `the driver stands only ${found.snrDb.toFixed(0)} dB over the noise; 15 dB are needed`);
  }
  if (isCut(question, found)) {
    return withheld('band-limited', 'the microphone’s path cuts into the driver’s band and delays what is left');
  }
  if (!anchor && question.referenceS === undefined)
    return withheld('no-reference', 'nothing in this take gives a time reference to measure against');
  if (arrival.atEdge) {
    return withheld('outside-window', 'no arrival inside the time window searched; check the expected distance');
  }
  if (!signed.certain) return withheld('ambiguous', 'what lies below the band decides, and it was not measured');
  if (arrival.coherence < LEAST_COHERENCE) {
    return withheld('ambiguous', 'reflections as loud as the direct sound: several arrivals fit equally well');
  }
  if (!anchor || question.referenceS !== undefined) {
    const lateS = LATE_PERIODS / found.passHz.high;
    const sigmaS = Math.hypot(
      SIGMA_PERIODS / found.passHz.high,
      0.25 * spreadS,
      noiseSigmaS(found.snrDb, found.passHz),
    );
    return {
      arrival,
      signed,
      answer: { arrivalS: arrival.arrivalS - lateS - anchorS, arrivalSigmaS: sigmaS, noArrival: null },
    };
  }
  const heard = anchor.arrival;
  if (anchor.snrDb < LEAST_ANCHOR_SNR_DB || heard.atEdge || heard.coherence < LEAST_COHERENCE) {
    return withheld(
      'low-snr',
      `the markers stand only ${anchor.snrDb.toFixed(0)} dB over the background, too faint to time by`,
    );
  }
  // Treble drivers share the markers' band: both are taken over it, and what the method gets wrong cancels.
  const common = {
    low: Math.max(found.measuredHz.low, anchor.bandHz.low),
    high: Math.min(found.measuredHz.high, anchor.bandHz.high),
  };
  let driver = arrival;
  let reference = heard;
  // The method is late by a few hundredths of a period of the band's upper end (docs/accuracy.md); that much is taken off.
  let lateS = LATE_PERIODS / found.passHz.high;
  let sigmaS = SIGMA_PERIODS / found.passHz.high;
  if (Math.log2(common.high / common.low) >= 0.9) {
    const shape = anchorShapeDb(anchor);
    driver = twoLooks(question, common, common, searchS, shape).arrival;
    reference = anchorArrival(anchor, common);
    sigmaS = 0.04 / common.high;
    lateS = 0;
  } else sigmaS = Math.hypot(sigmaS, 0.00002, 0.25 * spreadS);
  const shared = lateS === 0;
  const held = heldAgainstOnset(driver.arrivalS, early, onsetBand(question, found));
  const referenceDoubtS = earlierSoundS(reference.arrivalS, anchor.onset) / 2;
  const timing = Math.hypot(
    sigmaS,
    held.doubtS,
    referenceDoubtS,
    shared && !held.agreed ? doubtS(driver) : 0,
    shared ? doubtS(reference) : 0,
    // A louder reflection may hide an earlier sound still.
    arrival.rivalry > 1 && !held.agreed ? 0.3 * arrival.rivalAfterS : 0,
    slipS(reference, anchor),
    noiseSigmaS(found.snrDb, found.passHz),
    noiseSigmaS(anchor.snrDb, anchor.bandHz),
  );
  return {
    arrival: { ...arrival, arrivalS: held.arrivalS },
    signed,
    answer: { arrivalS: held.arrivalS - lateS - reference.arrivalS, arrivalSigmaS: timing, noArrival: null },
  };
}

/** Most that reflections move a time that is taken from a blurred top, s. */
const BLUR_S = 0.0008;
const CLEAR_COHERENCE = 0.75;

/** What reflections add to the doubt about an arrival: a louder later one, or a top that explains little of the sound. */
function doubtS({ rivalry, rivalAfterS, coherence }: Arrival): number {
  const later = rivalry > 1.05 ? 0.5 * rivalAfterS : 0;
  return Math.max(later, BLUR_S * Math.max(0, 1 - coherence / CLEAR_COHERENCE));
}

/** Markers this faint may be timed by the wrong half period of their carrier. */
const FAINT_SNR_DB = 30;
const SLIP_AMBIGUITY = 0.86;

function slipS({ ambiguity }: Arrival, anchor: Anchor): number {
  const halfPeriodS = 0.5 / Math.sqrt(anchor.bandHz.low * anchor.bandHz.high);
  return ambiguity > SLIP_AMBIGUITY || anchor.snrDb < FAINT_SNR_DB ? halfPeriodS : 0;
}

/** Timing error from noise alone: the bound for a band-limited pulse, at its signal to noise. */
function noiseSigmaS(snrDb: number | null, bandHz: { low: number; high: number }): number {
  if (snrDb === null) return 0;
  const bandwidthHz = bandHz.high - bandHz.low;
  const centreHz = Math.sqrt((bandHz.low ** 2 + bandHz.low * bandHz.high + bandHz.high ** 2) / 3);
  // A window of a tenth of a second holds this many independent frequencies.
  const count = Math.max(1, bandwidthHz * 0.1);
  return 1 / (2 * Math.PI * centreHz * Math.sqrt(2 * count * 10 ** (snrDb / 10)));
}

/** Periods of the band's lower end that the second look keeps after the arrival. */
const PERIODS_KEPT = 4;

/**
 * The response as measured in a window, for guesses about what lies outside its band.
 *
 * @param searchS  where an arrival may lie, s
 * @param afterS  sound kept after that, s: long for a wide search, short once the arrival is nearly known, so that the
 *   room adds no doubt
 */
function measured(
  question: SweepQuestion,
  bandHz: { low: number; high: number },
  measuredHz: { low: number; high: number },
  searchS: { from: number; to: number },
  afterS: number,
): MeasuredResponse {
  const { impulse, noise } = question;
  const rateHz = impulse.rateHz;
  const window = {
    fromS: searchS.from - 0.008,
    toS: searchS.to + Math.min(afterS, impulse.tailS),
    riseS: 0.003,
    fallS: 0.6 * Math.min(afterS, impulse.tailS),
  };
  const stretch = windowed(impulse, window);
  return measuredResponse(stretch.samples, {
    rateHz,
    zeroIndex: -Math.round(stretch.firstS * rateHz),
    bandHz,
    measuredHz,
    windowS: searchS,
    ...(noise
      ? {
          noisePower: (fHz: number) => noisePower({ windowEnergy: stretch.energy, rateHz, impulse }, noise, fHz, 1 / 6),
        }
      : {}),
  });
}

/**
 * Arrival sought in the whole window, then again about what was found with most of the room cut away.
 *
 * @param whole  the response as measured in the whole window; it is the same for every guess
 */
function twoLooks(
  question: SweepQuestion,
  bandHz: { low: number; high: number },
  measuredHz: { low: number; high: number },
  searchS: { from: number; to: number },
  outsideDb: (fHz: number) => number,
  whole: MeasuredResponse = measured(question, bandHz, measuredHz, searchS, WHOLE_AFTER_S),
): { arrival: Arrival; white: WhitenedResponse } {
  const afterS = Math.min(WHOLE_AFTER_S, Math.max(0.005, PERIODS_KEPT / measuredHz.low));
  const wide = whitenedBy(whole, outsideDb);
  const first = topOf(wide, searchS);
  if (first.atEdge) return { arrival: first, white: wide };
  const reachS = Math.max(0.0005, 0.75 / bandHz.low);
  const near = {
    from: Math.max(searchS.from, first.arrivalS - Math.max(reachS, 0.003)),
    to: Math.min(searchS.to, first.arrivalS + reachS),
  };
  const white = whitenedBy(measured(question, bandHz, measuredHz, near, afterS), outsideDb);
  const second = topOf(white, near);
  return { arrival: { ...second, rivalry: Math.max(first.rivalry, second.rivalry) }, white };
}

/** What the best onset of the other sign leaves unexplained must be this much more than the best leaves. */
const MOST_ONSET_RIVALRY = 0.9;
const SURE_ONSET_RIVALRY = 0.3;
/** The same of a turned over onset with an all-pass in it, the other way up: below, a hidden filter may be the reason. */
const LEAST_ALL_PASS = 0.8;
const SURE_ALL_PASS = 1.4;

function polarityOf(found: FoundBand, { arrival, certain }: Sought['signed'], early: EarlySound | null): Polarity {
  const cannotSay = (reason: string): Polarity => ({ sign: 0, confidence: 0, reason });
  if (found.snrDb !== null && found.snrDb < ARRIVAL_SNR_DB) {
    return cannotSay(`only ${found.snrDb.toFixed(0)} dB over the noise; 15 dB are needed`);
  }
  if (early === null || early.atEdge) return cannotSay('no clear arrival inside the time window searched');
  if (early.rivalry > MOST_ONSET_RIVALRY) return cannotSay('both signs fit nearly equally well');
  if (early.allPassRivalry < LEAST_ALL_PASS) {
    return cannotSay('the other sign with a phase-turning filter in the path fits as well');
  }
  // Second opinion: the phase of the whole band against its magnitude.
  const agrees = arrival.sign === early.sign;
  const clear = early.rivalry < SURE_ONSET_RIVALRY && early.allPassRivalry >= SURE_ALL_PASS;
  if (!agrees && certain && !clear) return cannotSay('how the sound begins and the phase of the band disagree');
  const snr = Math.min(1, ((found.snrDb ?? 20) - 10) / 10);
  const sure = clear && agrees && snr === 1;
  const fit = 1 - early.rivalry;
  return {
    sign: early.sign,
    confidence: sure ? 0.8 + 0.19 * fit : 0.5 + 0.25 * fit * snr,
    reason: `${sure ? 'sure' : 'likely'}: the sound begins as a driver behind a crossover does`,
  };
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
