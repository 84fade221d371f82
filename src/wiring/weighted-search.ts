// Wiring faults from evidence that is more or less clear: the cheapest sets, and what cannot be told from them.
import type { ChainState } from './channel-faults.ts';
import { COST, type InputState, inputStates, MOST_COST } from './input-states.ts';
import { exchangesOf } from './permutations.ts';
import type { WalkPlan } from './walk-request.ts';

/** What a chain may be doing, and how badly that goes with what was measured, in the unit of the faults' costs. */
export type ChainEvidence = Record<ChainState, number>;

/** The evidence for one output at one place with the inputs in a given state; 0 goes with it fully, 40 hardly at all. */
export type EvidenceOf = (output: number, place: number, inputs: InputState) => ChainEvidence;

/** One way in which all leads may lie. */
export interface WeightedLayout {
  inputs: InputState;
  /** `layout[o]`: place that output o really feeds. */
  layout: number[];
  /** What each output's chain does. */
  states: ChainState[];
  /** Of the faults alone. */
  faultCost: number;
  /** With the evidence against it. */
  total: number;
}

/** Layouts this much dearer than the best are not told apart from it. */
export const MARGIN = 6;

const FAULT: Record<ChainState, number> = { sound: 0, silent: COST.open, turned: COST.turned };
const STATES: ChainState[] = ['sound', 'silent', 'turned'];
/** More than a person can do anything with. */
const MOST_LAYOUTS = 400;

interface Option {
  place: number;
  state: ChainState;
  fault: number;
  total: number;
}

/** All layouts with these inputs that cost no more than `limit()` in all; `found` may lower the limit. */
function laid(options: Option[][], base: number, limit: () => number, found: (chosen: Option[]) => void): void {
  const count = options.length;
  const rest = new Array<number>(count + 1).fill(0);
  for (let o = count - 1; o >= 0; o--) rest[o] = rest[o + 1] + (options[o][0]?.total ?? Number.POSITIVE_INFINITY);
  const taken = new Array<boolean>(count).fill(false);
  const chosen: Option[] = [];
  const lay = (output: number, cost: number, moved: number): void => {
    if (base + cost + rest[output] + COST.swap * Math.ceil(moved / 2) > limit()) return;
    if (output === count) {
      found([...chosen]);
      return;
    }
    for (const option of options[output]) {
      if (base + cost + option.total + rest[output + 1] > limit()) break;
      if (taken[option.place]) continue;
      taken[option.place] = true;
      chosen.push(option);
      lay(output + 1, cost + option.total, moved + (option.place === output ? 0 : 1));
      chosen.pop();
      taken[option.place] = false;
    }
  };
  lay(0, 0, 0);
}

/**
 * Every way to lay the leads whose faults and evidence cost no more than the cheapest way and a margin.
 *
 * Costs of faults are -10 log10 of how often they are met, so evidence in the same unit is -10 log10 of its likelihood:
 * the sum orders explanations by what is left of their probability.
 *
 * @param plan        1 to 24 outputs
 * @param evidenceOf  at least 0; 0 everywhere for a place that nothing is known of
 * @param extraCost   added to every layout: a remark that stands for a rare fault outside the car
 * @returns cheapest first; `[]` where everything costs more than 45 and the evidence leaves
 */
export function weightedLayouts(plan: WalkPlan, evidenceOf: EvidenceOf, extraCost = 0): WeightedLayout[] {
  let best = MOST_COST;
  let kept: WeightedLayout[] = [];
  for (const inputs of inputStates(plan)) {
    const base = inputs.cost + extraCost;
    if (base > best + MARGIN) break;
    const options = plan.outputs.map((_, o) =>
      plan.outputs
        .flatMap((__, p) => {
          const evidence = evidenceOf(o, p, inputs);
          return STATES.map(
            (state): Option => ({ place: p, state, fault: FAULT[state], total: FAULT[state] + evidence[state] }),
          );
        })
        .sort((a, b) => a.total - b.total),
    );
    laid(
      options,
      base,
      () => best + MARGIN,
      (chosen) => {
        const layout = chosen.map(({ place }) => place);
        const swaps = COST.swap * exchangesOf(layout);
        const total = base + swaps + chosen.reduce((sum, option) => sum + option.total, 0);
        if (total > best + MARGIN) return;
        best = Math.min(best, total);
        const faultCost = inputs.cost + swaps + chosen.reduce((sum, { fault }) => sum + fault, 0);
        kept.push({ inputs, layout, states: chosen.map(({ state }) => state), faultCost, total });
        if (kept.length > 4 * MOST_LAYOUTS) kept = cheapest(kept, best);
      },
    );
  }
  return cheapest(kept, best);
}

function cheapest(layouts: WeightedLayout[], best: number): WeightedLayout[] {
  return layouts
    .filter(({ total }) => total <= best + MARGIN)
    .sort((a, b) => a.total - b.total)
    .slice(0, MOST_LAYOUTS);
}
