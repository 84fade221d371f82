// Whether the alternator feeds car and music, standing and driving.
import { calculation } from '../base/calculation.ts';
import { number, orElse } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';

/** `idle-short`: the battery drains at idle and recovers on the road; `always-short`: it never recovers. */
export type AlternatorVerdict = 'ok' | 'idle-short' | 'always-short';

/** Output at idle over rated output: an assumption, since only the maker's curve of output against speed tells. */
export const idleFractionDefault = 0.5;

/**
 * What is left of the alternator's current after the vehicle and the music.
 *
 * @param alternatorRatedA above 0
 * @param idleFraction     above 0, to 1; see `idleFractionDefault`
 * @param vehicleA         0 or more; 25 for a small car by day, 35 typical, 50 to 60 at night with heated glass
 * @param audioA           0 or more: current of music, not of full sine
 * Source: sums of currents; ISO 8854 for output against speed.
 */
export function alternatorBudget(given: {
  alternatorRatedA: number;
  idleFraction: number;
  vehicleA: number;
  audioA: number;
}): { idleAvailableA: number; idleMarginA: number; cruiseMarginA: number; verdict: AlternatorVerdict } {
  const { alternatorRatedA, idleFraction, vehicleA, audioA } = given;
  const idleAvailableA = alternatorRatedA * idleFraction;
  const idleMarginA = idleAvailableA - vehicleA - audioA;
  const cruiseMarginA = alternatorRatedA - vehicleA - audioA;
  const verdict = idleMarginA >= 0 ? 'ok' : cruiseMarginA >= 0 ? 'idle-short' : 'always-short';
  return { idleAvailableA, idleMarginA, cruiseMarginA, verdict };
}

export const alternatorBudgetCalculation = calculation({
  name: 'alternatorBudget',
  about: 'what the alternator has left at idle and on the road',
  inputs: {
    alternatorRatedA: number('A', { above: 0 }),
    idleFraction: orElse(number('', { above: 0, max: 1 }), idleFractionDefault),
    vehicleA: number('A', { min: 0 }),
    audioA: number('A', { min: 0 }),
  },
  answer: (values) => success(alternatorBudget(values)),
});
