// When the driver of one sweep is heard, re the time reference, and how uncertain that is.
import { type Anchor, anchorArrival, anchorShapeDb } from './anchor.ts';
import { type Arrival, type MeasuredResponse, measuredResponse, topOf, whitenedBy } from './arrival-time.ts';
import type { EarlySound } from './early-sound/early-sound.ts';
import { earlierSoundS, heldAgainstOnset } from './early-sound/held-against-onset.ts';
import { type FoundBand, onsetBand } from './found-band.ts';
import { windowed } from './sweep-impulse.ts';
import type { SweepQuestion } from './sweep-question.ts';
import { noisePower } from './sweep-response.ts';

/** Least signal to noise of a driver that is timed or whose sign is told, dB. */
export const ARRIVAL_SNR_DB = 15;
const LEAST_ANCHOR_SNR_DB = 20;
const LEAST_COHERENCE = 0.45;
const LATE_PERIODS = 0.03;
const SIGMA_PERIODS = 0.04;

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
  const closer = twoLooks(question, upper, upper, near, driverShapeDb({ ...found, measuredHz: upper }, 0));
  return closer.coherence > arrival.coherence && !closer.atEdge ? closer : arrival;
}

/** The recorder's own band ends inside the driver's, or so close to it that its filter's delay reaches in. */
export function isCut({ recordedHz }: SweepQuestion, { passHz }: FoundBand): boolean {
  const { low = null, high = null } = recordedHz ?? {};
  return (low !== null && low > passHz.low / 1.6) || (high !== null && high < passHz.high * 1.3);
}

/** Room after the window that the first look takes in, s. */
const WHOLE_AFTER_S = 0.12;

export interface ToldArrival {
  arrivalS: number | null;
  arrivalSigmaS: number | null;
  /** Why there is no arrival. */
  noArrival: { code: string; message: string } | null;
}

export interface Sought {
  arrival: Arrival;
  /** Sign and its doubts, by the guess about the lower end that leaves the flattest phase. */
  signed: { sign: 1 | -1; certain: boolean };
  answer: ToldArrival;
}

export function soughtArrival(
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
  const flattest = looks.reduce((best, look) => (look.coherence > best.coherence ? look : best));
  const agreeing = looks.filter((look) => look.sign === flattest.sign);
  // The gentlest fall that agrees in sign comes nearest to what a cabin leaves (docs/accuracy.md).
  const arrival = sharpened(question, found, searchS, agreeing[0]);
  const times = agreeing.map((look) => look.arrivalS);
  const spreadS = Math.max(...times) - Math.min(...times);
  const rivals = looks.filter((look) => look.coherence > 0.9 * flattest.coherence);
  const { sign } = flattest;
  const signed = { sign, certain: rivals.every((look) => look.sign === sign) };
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
    const held = heldAgainstOnset(arrival.arrivalS, early, onsetBand(question, found));
    const sigmaS = Math.hypot(
      SIGMA_PERIODS / found.passHz.high,
      0.25 * spreadS,
      held.doubtS,
      noiseSigmaS(found.snrDb, found.passHz),
    );
    return {
      arrival: { ...arrival, arrivalS: held.arrivalS },
      signed,
      answer: { arrivalS: held.arrivalS - lateS - anchorS, arrivalSigmaS: sigmaS, noArrival: null },
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
    driver = twoLooks(question, common, common, searchS, shape);
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
): Arrival {
  const afterS = Math.min(WHOLE_AFTER_S, Math.max(0.005, PERIODS_KEPT / measuredHz.low));
  const first = topOf(whitenedBy(whole, outsideDb), searchS);
  if (first.atEdge) return first;
  const reachS = Math.max(0.0005, 0.75 / bandHz.low);
  const near = {
    from: Math.max(searchS.from, first.arrivalS - Math.max(reachS, 0.003)),
    to: Math.min(searchS.to, first.arrivalS + reachS),
  };
  const second = topOf(whitenedBy(measured(question, bandHz, measuredHz, near, afterS), outsideDb), near);
  return { ...second, rivalry: Math.max(first.rivalry, second.rivalry) };
}
