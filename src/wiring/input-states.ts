// What can be wrong with the two leads from the source, and what it makes of a test.
import type { Observation, WalkPlan } from './walk-request.ts';

/** Costs stand for rarity: -10 log10 of how often a fault is met, relative to the others. */
export const COST = {
  swap: 10,
  open: 10,
  mute: 10,
  turned: 10,
  openInput: 12,
  swapInput: 10,
  reversedInput: 20,
} as const;

/** Explanations dearer than this are none. */
export const MOST_COST = 45;

export interface InputState {
  faults: string[];
  cost: number;
  /** Sign and presence of what arrives at in1 and in2 with each side of the stimulus. */
  swapped: boolean;
  gains: [number, number];
}

/** Every state of the two inputs that one explanation could hold, cheapest first. */
export function inputStates({ reversibleInputs }: Pick<WalkPlan, 'reversibleInputs'>): InputState[] {
  const each = [1, 0, ...(reversibleInputs ? [-1] : [])];
  const states: InputState[] = [];
  for (const swapped of [false, true]) {
    for (const one of each) {
      for (const two of each) {
        const faults = swapped ? ['swap:input:in1+in2'] : [];
        let cost: number = swapped ? COST.swapInput : 0;
        for (const [name, gain] of [
          ['in1', one],
          ['in2', two],
        ] as const) {
          if (gain === 0) faults.push(`open:input:${name}`);
          if (gain === -1) faults.push(`reversed:input:${name}`);
          cost += gain === 0 ? COST.openInput : gain === -1 ? COST.reversedInput : 0;
        }
        if (cost <= MOST_COST) states.push({ faults, cost, swapped, gains: [one, two] });
      }
    }
  }
  return states.sort((a, b) => a.cost - b.cost);
}

export const asPlanned: InputState = { faults: [], cost: 0, swapped: false, gains: [1, 1] };

/** Sums below this share of their parts cancel. */
const CANCELS = 1e-9;

/** Sign of what an output gives in a test when nothing behind the inputs is wrong: -1, 0 or 1. */
export function outputSign(output: WalkPlan['outputs'][number], side: Observation['side'], inputs: InputState): number {
  const played: [number, number] = [side === 'right' ? 0 : 1, side === 'left' ? 0 : 1];
  const [left, right] = inputs.swapped ? [played[1], played[0]] : played;
  const one = output.in1 * left * inputs.gains[0];
  const two = output.in2 * right * inputs.gains[1];
  const sum = one + two;
  return Math.abs(sum) <= CANCELS * (Math.abs(one) + Math.abs(two)) ? 0 : Math.sign(sum);
}
