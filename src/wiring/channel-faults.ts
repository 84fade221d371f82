// What one output does at one place: which faults of its own chain fit all that was heard there.
import { COST, type InputState, asPlanned as inputsAsPlanned, outputSign } from './input-states.ts';
import type { Observation, WalkPlan } from './walk-request.ts';

/** What a chain makes of its signal: silent, as planned, or turned over. */
export type ChainState = 'sound' | 'silent' | 'turned';

export interface ChainFit {
  state: ChainState;
  cost: number;
}

const SIGN = { sound: 1, silent: 0, turned: -1 } as const;

function fits(
  plan: WalkPlan,
  observations: Observation[],
  inputs: InputState,
  chain: { output: number; place: string; state: ChainState },
): boolean {
  const output = plan.outputs[chain.output];
  return observations.every(({ side, outputs, heard }) => {
    const found = heard.find(({ place }) => place === chain.place);
    const plays = outputs === 'all' || outputs.includes(output.id);
    const sign = plays ? outputSign(output, side, inputs) * SIGN[chain.state] : 0;
    if (sign === 0) return found === undefined;
    if (found === undefined) return false;
    if (found.polarity === '?') return true;
    // Polarity is told against the plan: an output that subtracts is meant to.
    const planned = outputSign(output, side, inputsAsPlanned) || 1;
    return sign * planned > 0 === (found.polarity === '+');
  });
}

/** The cheapest states of the chain that fit; none where the output cannot be what sounded there. */
export function chainFits(
  plan: WalkPlan,
  observations: Observation[],
  inputs: InputState,
  chain: { output: number; place: string },
): ChainFit[] {
  const of = (state: ChainState, cost: number): ChainFit[] =>
    fits(plan, observations, inputs, { ...chain, state }) ? [{ state, cost }] : [];
  const sound = of('sound', 0);
  return sound.length > 0 ? sound : [...of('silent', COST.open), ...of('turned', COST.turned)];
}
