// A near-field walk, answered: what each place is fed, what is wired wrongly, and what to do next.
import type { FoundBand } from '../measurement/near-field/found-band.ts';
import { foundBand } from '../measurement/near-field/found-band.ts';
import type { NearTake } from '../measurement/near-field/near-take.ts';
import { type NearPlaceReading, readPlaces } from '../measurement/near-field/read-places.ts';
import { type Explanation, explanationsFor } from './explanations.ts';
import { COST } from './input-states.ts';
import { type NearFinding, nearDanger } from './near-danger.ts';
import { nearEvidence } from './near-evidence.ts';
import type { NearPlan } from './near-plan.ts';
import { nearTests } from './near-tests.ts';
import { type PlaceVerdict, placeVerdict } from './near-verdict.ts';
import type { NextTest } from './next-tests.ts';
import { MARGIN, type WeightedLayout, weightedLayouts } from './weighted-search.ts';

/** What one place's take came to. */
export interface NearPlaceAnswer extends PlaceVerdict {
  place: string;
  band: FoundBand | null;
  /** Recorded per played full scale in the driver's own band, dB; null where it does not stand out. */
  levelDb: number | null;
}

export interface NearWalkAnswer {
  status: 'as planned' | 'explained' | 'tie' | 'unexplained' | 'nothing to go by';
  places: NearPlaceAnswer[];
  explanations: { faults: string[]; cost: number }[];
  minCost: number | null;
  unexplained: boolean;
  nextTests: NextTest[];
  /** What must be looked at before anything else is played. */
  findings: NearFinding[];
  remarks: string[];
  /** Places whose wiring or polarity nothing has told yet. */
  notProven: string[];
}

/** A recorder or a source that turns everything over is met about as rarely as a reversed input. */
const TURNED_WHOLE_COST = COST.reversedInput;

/** Layouts with the sign of everything told apart. */
export interface JudgedLayout extends WeightedLayout {
  flip: 1 | -1;
}

function judgedLayouts(plan: NearPlan, readings: (NearPlaceReading | null)[]): JudgedLayout[] {
  const straight = weightedLayouts(plan, nearEvidence(plan, readings, 1));
  const turned = weightedLayouts(plan, nearEvidence(plan, readings, -1), TURNED_WHOLE_COST);
  const all = [
    ...straight.map((layout): JudgedLayout => ({ ...layout, flip: 1 })),
    ...turned.map((layout): JudgedLayout => ({ ...layout, flip: -1 })),
  ];
  const best = Math.min(...all.map(({ total }) => total));
  return all.filter(({ total }) => total <= best + MARGIN).sort((a, b) => a.total - b.total);
}

/** All sets of faults behind the layouts, each once, the most likely first. */
function explained(plan: NearPlan, layouts: readonly JudgedLayout[]): Explanation[] {
  const seen = new Set<string>();
  return layouts.flatMap(({ layout, states, inputs, faultCost }) =>
    explanationsFor(plan, (output) => [states[output]], layout, inputs, faultCost)
      .sort((a, b) => (a.faults.join() < b.faults.join() ? -1 : 1))
      .filter(({ faults }) => {
        const words = faults.join();
        if (seen.has(words)) return false;
        seen.add(words);
        return true;
      }),
  );
}

function statusOf(known: number, left: Explanation[]): NearWalkAnswer['status'] {
  if (known === 0) return 'nothing to go by';
  if (left.length === 0) return 'unexplained';
  if (left.length > 1) return 'tie';
  return left[0].faults.length === 0 ? 'as planned' : 'explained';
}

/** Evidence that the best explanation leaves against it, above which something else is wrong too. */
const MUCH_LEFT = 20;

function remarksOf(layouts: readonly JudgedLayout[], known: number): string[] {
  const remarks: string[] = [];
  if (known > 0 && layouts.length === 0) {
    remarks.push(
      'No plausible set of wiring faults explains the takes: repeat them, the microphone in front of each cone.',
    );
  }
  if (layouts.length > 0 && layouts.every(({ flip }) => flip === -1)) {
    remarks.push(
      'Everything sounds the other way round: the source or the recorder is turned over, not every lead. Polarity is taken against that.',
    );
  }
  const [best] = layouts;
  if (best && best.total - best.faultCost - (best.flip === -1 ? TURNED_WHOLE_COST : 0) > MUCH_LEFT) {
    remarks.push(
      'Not all that was measured fits: a filter may be set otherwise than planned, or a take belongs to another place.',
    );
  }
  return remarks;
}

/**
 * Explains near-field takes, one a driver, by the fewest wiring faults, and says what each place is fed.
 *
 * @param plan   channels with their filters, kinds and polarity as meant
 * @param takes  by place; places without a take say nothing and are listed as not proven
 * @returns explanations of least cost and what cannot be told from them (6 dearer at most, cost in -10 log10 of how often
 *   a fault is met)
 */
export function nearWalk(plan: NearPlan, takes: ReadonlyMap<string, NearTake>): NearWalkAnswer {
  return readNearWalk(plan, takes).answer;
}

/** The answer of `nearWalk`, and what each place's take says by itself: null where there is no usable one. */
export function readNearWalk(
  plan: NearPlan,
  takes: ReadonlyMap<string, NearTake>,
): { answer: NearWalkAnswer; readings: (NearPlaceReading | null)[] } {
  const inOrder = plan.outputs.map(({ place }) => takes.get(place) ?? null);
  const readings = readPlaces(inOrder, plan.outputs);
  const known = readings.filter((reading) => reading !== null).length;
  const layouts = known > 0 ? judgedLayouts(plan, readings) : [];
  const left = explained(plan, layouts);
  const bands = readings.map((reading, p) => reading && foundBand(reading, plan.outputs[p]));
  const places = plan.outputs.flatMap(({ place }, p): NearPlaceAnswer[] => {
    const take = inOrder[p];
    if (!take) return [];
    const reading = readings[p];
    const verdict = placeVerdict(plan, p, take, reading, layouts);
    return [{ place, ...verdict, band: bands[p], levelDb: reading?.levelDb ?? null }];
  });
  const proven = (place: string): boolean =>
    places.some(
      (told) =>
        told.place === place && told.verdict !== 'cannot-say' && (told.side === 'none' || told.polarity.sign !== 0),
    );
  const notProven = plan.outputs.map(({ place }) => place).filter((place) => !proven(place));
  const answer: NearWalkAnswer = {
    status: statusOf(known, left),
    places,
    explanations: left.map(({ faults, cost }) => ({ faults, cost })),
    minCost: left.length > 0 ? Math.min(...left.map(({ cost }) => cost)) : null,
    unexplained: known > 0 && left.length === 0,
    nextTests: nearTests(plan, left, places, notProven),
    findings: nearDanger(plan, readings, bands, layouts),
    remarks: remarksOf(layouts, known),
    notProven,
  };
  return { answer, readings };
}
