// The fewest wiring faults that explain what was heard: all of them, since ties are the truth until the next test.
import { type ChainFit, type ChainState, chainFits } from './channel-faults.ts';
import { COST, type InputState, inputStates, MOST_COST } from './input-states.ts';
import { cyclesOf, exchangesOf, type Permutation, splitsOf } from './permutations.ts';
import type { Observation, WalkPlan } from './walk-request.ts';

/** One set of faults that makes everything sound as it was heard, and where it puts the leads. */
export interface Explanation {
  faults: string[];
  cost: number;
  /** `signal[i]`: amplifier channel that output i really feeds; `speaker[k]`: place that channel k really feeds. */
  signal: Permutation;
  speaker: Permutation;
}

/** Cheapest ways to lay outputs on places so that every chain fits, with what they cost beyond the inputs. */
interface Layouts {
  cost: number;
  found: number[][];
}

function bestLayouts(fits: ChainFit[][][], limit: number): Layouts {
  const count = fits.length;
  const best: Layouts = { cost: limit, found: [] };
  const taken = new Array<boolean>(count).fill(false);
  const layout = new Array<number>(count).fill(-1);
  const cheapest = fits.map((row) => Math.min(...row.map((fit) => fit[0]?.cost ?? Number.POSITIVE_INFINITY)));
  const rest = new Array<number>(count + 1).fill(0);
  for (let o = count - 1; o >= 0; o--) rest[o] = rest[o + 1] + cheapest[o];
  const lay = (output: number, chains: number, moved: number): void => {
    // m leads out of place take at least m / 2 exchanges.
    if (chains + rest[output] + COST.swap * Math.ceil(moved / 2) > best.cost) return;
    if (output === count) {
      const cost = chains + COST.swap * exchangesOf(layout);
      if (cost > best.cost) return;
      if (cost < best.cost) best.found = [];
      best.cost = cost;
      best.found.push([...layout]);
      return;
    }
    const places = [output, ...layout.map((_, place) => place).filter((place) => place !== output)];
    for (const place of places) {
      const fit = fits[output][place];
      if (taken[place] || fit.length === 0) continue;
      taken[place] = true;
      layout[output] = place;
      lay(output + 1, chains + fit[0].cost, moved + (place === output ? 0 : 1));
      taken[place] = false;
      layout[output] = -1;
    }
  };
  lay(0, 0, 0);
  return best;
}

const named = (layer: string, names: string[], permutation: Permutation): string[] =>
  cyclesOf(permutation).map((cycle) => {
    const words = cycle.map((i) => names[i]);
    return cycle.length === 2 ? `swap:${layer}:${words.join('+')}` : `cycle:${layer}:${words.join('>')}`;
  });

/** What the chain of an output at a place may be doing, all of it equally cheap. */
type StatesAt = (output: number, place: number) => ChainState[];

/** All ways in which the chains of one layout can come to what they do. */
function chainFaults(plan: WalkPlan, statesAt: StatesAt, layout: Permutation, signal: Permutation): string[][] {
  const { outputs } = plan;
  let sets: string[][] = [[]];
  layout.forEach((place, output) => {
    const options = statesAt(output, place).flatMap((state) => {
      if (state === 'sound') return [[]];
      const { id } = outputs[output];
      const { amp } = outputs[signal[output]];
      const at = outputs[place].place;
      return state === 'silent'
        ? [[`mute:${id}`], [`open:signal:${amp}`], [`open:speaker:${at}`]]
        : [[`invert:${id}`], [`reversed:speaker:${at}`]];
    });
    sets = sets.flatMap((set) => options.map((option) => [...set, ...option]));
  });
  return sets;
}

/**
 * All sets of faults that put the leads where a layout has them.
 *
 * @param layout    `layout[o]`: place that output o really feeds
 * @param statesAt  what the chain of an output at a place may be doing
 * @param cost      that of each set
 */
export function explanationsFor(
  plan: WalkPlan,
  statesAt: StatesAt,
  layout: number[],
  inputs: InputState,
  cost: number,
): Explanation[] {
  const amps = plan.outputs.map(({ amp }) => amp);
  const places = plan.outputs.map(({ place }) => place);
  return splitsOf(layout).flatMap(({ first: signal, then: speaker }) =>
    chainFaults(plan, statesAt, layout, signal).map(
      (chain): Explanation => ({
        faults: [
          ...inputs.faults,
          ...named('signal', amps, signal),
          ...named('speaker', places, speaker),
          ...chain,
        ].sort(),
        cost,
        signal,
        speaker,
      }),
    ),
  );
}

/** More ties than a person can do anything with; a walk this thin needs more tests, not a longer list. */
const MOST_EXPLANATIONS = 2000;

/**
 * Every set of faults of least cost that reproduces every observation exactly.
 *
 * Two leads exchanged, a lead open, an output muted, inverted or reversed cost 10 each, an open input 12, a reversed
 * one 20. A place is fed by one output, so each chain is judged alone once it is known which output feeds which place.
 *
 * @param plan          1 to 24 outputs
 * @param observations  places not listed were silent; polarity `?` is not compared
 * @returns `[]` where nothing up to a cost of 45 explains what was heard; at most 2000
 * Source: own method: minimal diagnoses by cost, after R. Reiter, A theory of diagnosis from first principles, Artificial
 *   Intelligence 32, 1987, doi:10.1016/0004-3702(87)90062-2.
 */
export function explanations(plan: WalkPlan, observations: Observation[]): Explanation[] {
  let best = MOST_COST;
  let found: Explanation[] = [];
  for (const inputs of inputStates(plan)) {
    if (inputs.cost > best) break;
    const fits = plan.outputs.map((_, output) =>
      plan.outputs.map(({ place }) => chainFits(plan, observations, inputs, { output, place })),
    );
    const { cost, found: layouts } = bestLayouts(fits, best - inputs.cost);
    if (layouts.length === 0) continue;
    const total = inputs.cost + cost;
    if (total < best) found = [];
    best = total;
    const statesAt: StatesAt = (output, place) => fits[output][place].map(({ state }) => state);
    for (const layout of layouts) {
      if (found.length < MOST_EXPLANATIONS) found.push(...explanationsFor(plan, statesAt, layout, inputs, total));
    }
  }
  const words = ({ faults }: Explanation): string => faults.join();
  return found.slice(0, MOST_EXPLANATIONS).sort((a, b) => (words(a) < words(b) ? -1 : 1));
}

/**
 * The one observation without which the rest is explained most cheaply: most likely heard or written down wrongly.
 *
 * @returns its index, or null where no single one is to blame
 */
export function doubtfulObservation(plan: WalkPlan, observations: Observation[]): number | null {
  let best: { index: number; cost: number } | null = null;
  observations.forEach((_, index) => {
    const [first] = explanations(plan, observations.toSpliced(index, 1));
    if (first && (best === null || first.cost < best.cost)) best = { index, cost: first.cost };
  });
  return (best as { index: number } | null)?.index ?? null;
}
