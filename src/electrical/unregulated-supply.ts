// What an amplifier still gives whose rails follow the battery.
import { calculation } from '../base/calculation.ts';
import { number } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';

/**
 * Voltage, current and power of an amplifier that looks like a resistor Ra = efficiency * ratedAtV^2 / ratedW.
 *
 * @param sourceV    above 0
 * @param ratedW     above 0, at `ratedAtV` (above 0)
 * @param efficiency above 0, to 0.98
 * @param loopOhm    0 or more; see `loopResistance`
 * @returns `lossDb` positive for power lost against the rating
 * Source: voltage divider; power goes with the square of the voltage.
 */
export function unregulatedSupply(given: {
  sourceV: number;
  ratedW: number;
  efficiency: number;
  ratedAtV: number;
  loopOhm: number;
}): { deviceV: number; currentA: number; outputW: number; lossDb: number } {
  const { sourceV, ratedW, efficiency, ratedAtV, loopOhm } = given;
  const amplifierOhm = (efficiency * ratedAtV * ratedAtV) / ratedW;
  const currentA = sourceV / (amplifierOhm + loopOhm);
  const deviceV = currentA * amplifierOhm;
  const share = deviceV / ratedAtV;
  return { deviceV, currentA, outputW: ratedW * share * share, lossDb: -20 * Math.log10(share) };
}

export const unregulatedSupplyCalculation = calculation({
  name: 'unregulatedSupply',
  about: 'voltage and power of an amplifier whose rails follow the battery',
  inputs: {
    sourceV: number('V', { above: 0 }),
    ratedW: number('W', { above: 0 }),
    efficiency: number('', { above: 0, max: 0.98 }),
    ratedAtV: number('V', { above: 0 }),
    loopOhm: number('ohm', { min: 0 }),
  },
  answer: (values) => success(unregulatedSupply(values)),
});
