// The resistance of a length of wire.
import { calculation } from '../base/calculation.ts';
import { number } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';
import { type Conductor, conductorFrom, conductorInputs, conductorSize, ohmPerMetre } from './conductor.ts';

/**
 * Resistance of one conductor from end to end, ohm.
 *
 * @param lengthM 0 or more, one way
 * Source: IEC 60028; see `ohmPerMetre`.
 * @example conductorResistance({ material: 'copper', areaMm2: 25, tempC: 20 }, 4) // { ohm: 0.00275856, ohmPerM: 0.00068964 }
 */
export function conductorResistance(conductor: Conductor, lengthM: number): { ohm: number; ohmPerM: number } {
  const ohmPerM = ohmPerMetre(conductor);
  return { ohm: ohmPerM * lengthM, ohmPerM };
}

export const conductorResistanceCalculation = calculation({
  name: 'conductorResistance',
  about: 'resistance of a wire from end to end and of a metre of it',
  inputs: { ...conductorInputs, lengthM: number('m', { min: 0 }) },
  eitherOf: [conductorSize],
  answer({ lengthM, tempC, ...size }) {
    const conductor = conductorFrom(size, tempC);
    return conductor.ok ? success(conductorResistance(conductor.value, lengthM)) : conductor;
  },
});
