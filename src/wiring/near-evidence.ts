// What near-field readings say for and against each output at each place, in the unit of the faults' costs.
import type { NearPlaceReading } from '../measurement/near-field/read-places.ts';
import type { ChainState } from './channel-faults.ts';
import type { InputState } from './input-states.ts';
import type { NearPlan, NearPlanOutput } from './near-plan.ts';
import type { EvidenceOf } from './weighted-search.ts';

/** No single piece of evidence counts for more than this: measuring has faults of its own. */
const MOST = 40;
/** From this much presence on a driver certainly plays; below the other one it certainly does not, dB. */
const PLAYS_DB = 12;
const PLAYS_SIGMA_DB = 2.5;
const DEAD_DB = 4;
const DEAD_SIGMA_DB = 2.3;
/** Presence between these: too faint to judge its band by. */
const FAINT_DB = 6;
const CLEAR_DB = 10;
/** So little of the driver's own band tells nothing of its filters, so much all there is to tell, octaves. */
const NARROW_OCTAVES = 0.25;
const WIDE_OCTAVES = 0.75;
/** One side over the other: up to here both feed it, from there on one does, dB. */
const BOTH_DB = 3;
const ONE_SIDE_DB = 8;
const SIDE_COST = 30;
/** A channel that a driver hardly plays leaves a trace as often as not. */
const UNTRACED_COST = 4;
const SURE_SIGN_COST = 28;
const LIKELY_SIGN_COST = 13;
const SURE_CONFIDENCE = 0.8;
/** A channel that fits this little worse than the best one fits as well. */
const SAME_FIT = 5;
/** Another channel's level through this driver is known less well than its own. */
const STRANGE_DB = -4;

/** -10 log10 of a normal density this many sigmas out, up to the most that counts. */
const beyond = (sigmas: number): number => (sigmas <= 0 ? 0 : Math.min(MOST, 2.17 * sigmas * sigmas));

/** 0 up to one value, 1 from another on. */
const share = (value: number, from: number, to: number): number =>
  Math.min(1, Math.max(0, (value - from) / (to - from)));

/** Which share of each side arrives at an output, signs included. */
export function sideGains(output: { in1: number; in2: number }, inputs: InputState): { left: number; right: number } {
  const one = output.in1 * inputs.gains[0];
  const two = output.in2 * inputs.gains[1];
  return inputs.swapped ? { left: two, right: one } : { left: one, right: two };
}

function sideCost(measuredDb: number, gains: { left: number; right: number }): number {
  const [left, right] = [Math.abs(gains.left), Math.abs(gains.right)];
  const most = 40;
  const expectedDb = Math.max(-most, Math.min(most, 20 * Math.log10((left + 1e-4) / (right + 1e-4))));
  // Beyond what parts one side from both, more is not more.
  const capped = (db: number): number => Math.max(-ONE_SIDE_DB, Math.min(ONE_SIDE_DB, db));
  const off = Math.abs(capped(measuredDb) - capped(expectedDb));
  return SIDE_COST * Math.min(1, Math.max(0, (off - BOTH_DB) / (ONE_SIDE_DB - BOTH_DB)));
}

interface Told {
  reading: NearPlaceReading;
  place: number;
  /** Cost of the band by output, the best at 0. */
  band: number[];
}

/** How odd a presence is for a driver that does not play. */
const deadCost = (presenceDb: number): number => beyond((presenceDb - DEAD_DB) / DEAD_SIGMA_DB);

/** Two channels for the same kind of driver with the same filters: left and right of a pair. */
function sameDuty(one: NearPlanOutput, two: NearPlanOutput): boolean {
  const filters = ({ kind, highPass, lowPass }: NearPlanOutput) =>
    [kind, highPass?.family, highPass?.order, highPass?.fHz, lowPass?.family, lowPass?.order, lowPass?.fHz].join();
  return filters(one) === filters(two);
}

function soundCost(
  told: Told,
  plan: NearPlan,
  index: number,
  gains: { left: number; right: number },
  flip: number,
): { sound: number; turned: number } {
  const { reading, band } = told;
  const strange = !sameDuty(plan.outputs[index], plan.outputs[told.place]);
  const output = plan.outputs[index];
  const expectDb = PLAYS_DB + reading.faintnessDb[index] + (strange ? STRANGE_DB : 0);
  const here = reading.presenceIn[index];
  const most = Math.max(reading.presence.left.levelDb, reading.presence.right.levelDb);
  const inBand = here ? Math.max(here.left.levelDb, here.right.levelDb) : -60;
  // What stands out elsewhere than in the channel's band is as odd as with a silent driver.
  const untraced =
    UNTRACED_COST * (1 - share(inBand, DEAD_DB, PLAYS_DB)) + Math.max(0, deadCost(most) - deadCost(inBand));
  let missing = strange ? untraced : 0;
  if (here && reading.faintnessDb[index] > -FAINT_DB) {
    const hidden = Math.max(here.left.atMostDb, here.right.atMostDb) > PLAYS_DB && inBand < PLAYS_DB;
    missing = hidden ? 0 : Math.max(missing, beyond((expectDb - inBand) / PLAYS_SIGMA_DB));
  }
  const judged = share(most, FAINT_DB, CLEAR_DB);
  const range = reading.own.rangeHz;
  const wide = range ? share(Math.log2(range.high / range.low), NARROW_OCTAVES, WIDE_OCTAVES) : 0;
  // A driver too faint to be expected over its neighbours has their side, not its own.
  const sided = strange ? share(most + reading.faintnessDb[index], FAINT_DB, CLEAR_DB) : 1;
  const base =
    missing + judged * wide * band[index] + (reading.sideDb === null ? 0 : sided * sideCost(reading.sideDb, gains));
  let against = 0;
  let favour = 0;
  for (const side of ['left', 'right'] as const) {
    const { sign, confidence } = reading.polarity[side];
    if (sign === 0 || gains[side] === 0) continue;
    const cost = judged * (confidence >= SURE_CONFIDENCE ? SURE_SIGN_COST : LIKELY_SIGN_COST);
    if (sign * Math.sign(gains[side]) * output.polarity * flip < 0) against = Math.max(against, cost);
    else favour = Math.max(favour, cost);
  }
  return { sound: base + against, turned: base + favour };
}

function silentCost({ reading }: Told): number {
  const most = Math.max(reading.presence.left.levelDb, reading.presence.right.levelDb);
  return deadCost(most);
}

function told(reading: NearPlaceReading, place: number): Told {
  const costs = reading.fits.map((fit) => (fit === null ? null : fit.cost));
  const known = costs.filter((cost): cost is number => cost !== null);
  if (known.length === 0) return { reading, place, band: costs.map(() => 0) };
  const least = Math.min(...known);
  return { reading, place, band: costs.map((cost) => Math.min(MOST, Math.max(0, (cost ?? MOST) - least - SAME_FIT))) };
}

const nothing: Record<ChainState, number> = { sound: 0, silent: 0, turned: 0 };

/**
 * The evidence of all takes.
 *
 * @param readings  one a place of the plan, in its order; null where there is no usable take
 * @param flip      -1: the recorder or the source turns everything over
 */
export function nearEvidence(plan: NearPlan, readings: (NearPlaceReading | null)[], flip: 1 | -1): EvidenceOf {
  const places = readings.map((reading, place) => reading && told(reading, place));
  // What goes with one place best costs nothing: only differences between explanations tell.
  const least = places.map((place) => {
    if (!place) return 0;
    const all = plan.outputs.flatMap((output, o) => {
      const both = { left: output.in1, right: output.in2 };
      const crossed = { left: output.in2, right: output.in1 };
      return [both, crossed].flatMap((gains) =>
        ([1, -1] as const).flatMap((f) => Object.values(soundCost(place, plan, o, gains, f))),
      );
    });
    return Math.min(silentCost(place), ...all);
  });
  return (output, p, inputs) => {
    const place = places[p];
    if (!place) return nothing;
    const gains = sideGains(plan.outputs[output], inputs);
    const silent = silentCost(place) - least[p];
    // Without a signal the chain's own state does not show.
    if (gains.left === 0 && gains.right === 0) return { sound: silent, silent, turned: silent };
    const { sound, turned } = soundCost(place, plan, output, gains, flip);
    return { sound: sound - least[p], silent, turned: turned - least[p] };
  };
}
