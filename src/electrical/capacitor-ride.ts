// How long a capacitor across the amplifier holds it up.
import { calculation } from '../base/calculation.ts';
import { number } from '../base/calculation-inputs.ts';
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';

/**
 * Energy between two voltages, the time it feeds the load, and the first dip from the capacitor's own resistance.
 *
 * It flattens a drum hit and supplies nothing: a current budget gives it no credit.
 *
 * @param farad  above 0
 * @param fromV  above 0; `toV` 0 or more
 * @param loadW  above 0
 * @param esrOhm 0 or more
 * @returns refused as `contradiction` unless `toV` is below `fromV`
 * Source: energy of a capacitor, C (V1^2 - V2^2) / 2.
 */
export function capacitorRide(given: {
  farad: number;
  fromV: number;
  toV: number;
  loadW: number;
  esrOhm: number;
}): Result<{ energyJ: number; holdMs: number; esrDropV: number }> {
  const { farad, fromV, toV, loadW, esrOhm } = given;
  if (toV >= fromV) {
    const message = `toV ${toV} is not below fromV ${fromV}: nothing would be given off.`;
    return refused('contradiction', 'toV', message, 'Give the lower voltage as toV.');
  }
  const energyJ = (farad * (fromV - toV) * (fromV + toV)) / 2;
  return success({ energyJ, holdMs: (1000 * energyJ) / loadW, esrDropV: (esrOhm * loadW) / fromV });
}

export const capacitorRideCalculation = calculation({
  name: 'capacitorRide',
  about: 'how long a capacitor holds an amplifier up',
  caution: 'Charge and discharge it through a resistor or lamp: it holds charge after the battery is off.',
  inputs: {
    farad: number('F', { above: 0 }),
    fromV: number('V', { above: 0 }),
    toV: number('V', { min: 0 }),
    loadW: number('W', { above: 0 }),
    esrOhm: number('ohm', { min: 0 }),
  },
  answer: capacitorRide,
});
