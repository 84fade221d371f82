// What a ground is worth, from the volts across it while current flows.
import { calculation } from '../base/calculation.ts';
import { number } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';

/** Up to 1 mOhm good, up to 5 to be checked, above bad: an assumption of trade practice. */
export type GroundVerdict = 'good' | 'check' | 'bad';

/**
 * Resistance between two points of the ground (or of the plus side) from a drop measured at a known current.
 *
 * @param currentA above 0, by a clamp; @param dropV 0 or more
 * Source: Ohm's law; the leads of a meter on its ohm range alone are a hundred times a bad ground.
 */
export function groundFromDrop(given: { currentA: number; dropV: number }): {
  milliOhm: number;
  verdict: GroundVerdict;
} {
  const milliOhm = (1000 * given.dropV) / given.currentA;
  // Not stricter than the last binary digit: 0.2 V at 40 A is 5.
  const verdict = milliOhm <= 1 + 1e-9 ? 'good' : milliOhm <= 5 + 1e-9 ? 'check' : 'bad';
  return { milliOhm, verdict };
}

export const groundFromDropCalculation = calculation({
  name: 'groundFromDrop',
  about: 'resistance of a ground from the volts across it while current flows',
  inputs: { currentA: number('A', { above: 0 }), dropV: number('V', { min: 0 }) },
  answer: (values) => success(groundFromDrop(values)),
});
