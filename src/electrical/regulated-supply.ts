// What reaches an amplifier that takes the same power whatever the voltage.
import { calculation } from '../base/calculation.ts';
import { number } from '../base/calculation-inputs.ts';
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';

/**
 * Voltage and current of a load of constant power behind a resistance: V = (Vs + sqrt(Vs^2 - 4 R P)) / 2, I = P / V.
 * Current rises as voltage falls.
 *
 * @param sourceV above 0
 * @param inputW  0 or more: power taken from the supply, output over efficiency
 * @param loopOhm 0 or more; see `loopResistance`
 * @returns refused as `no-solution` where 4 R P > Vs^2: there is no steady state, the supply collapses
 * Source: the upper root of V (Vs - V) / R = P.
 */
export function regulatedSupply(given: {
  sourceV: number;
  inputW: number;
  loopOhm: number;
}): Result<{ deviceV: number; currentA: number; dropV: number }> {
  const { sourceV, inputW, loopOhm } = given;
  const room = sourceV * sourceV - 4 * loopOhm * inputW;
  if (room < 0) {
    const message = `The supply cannot feed ${inputW} W through ${(1000 * loopOhm).toPrecision(3)} mOhm from ${sourceV} V: it collapses.`;
    return refused('no-solution', 'inputW', message, 'Take less power, a thicker cable or a shorter run.');
  }
  const deviceV = (sourceV + Math.sqrt(room)) / 2;
  return success({ deviceV, currentA: inputW / deviceV, dropV: sourceV - deviceV });
}

export const regulatedSupplyCalculation = calculation({
  name: 'regulatedSupply',
  about: 'voltage at an amplifier that takes constant power',
  inputs: {
    sourceV: number('V', { above: 0 }),
    inputW: number('W', { min: 0 }),
    loopOhm: number('ohm', { min: 0 }),
  },
  answer: regulatedSupply,
});
