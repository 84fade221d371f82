// The everyday calculations of a driver in its box.
import { type Calculation, calculation } from '../base/calculation.ts';
import { number } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';
import { driverInput, givenBox, sourceInput } from './inputs.ts';
import { driverResponse } from './motion.ts';

export const boxesCalculations: readonly Calculation[] = [
  calculation({
    name: 'boxResponse',
    about: 'level, stroke, impedance and air in the port at one frequency',
    inputs: {
      driver: driverInput,
      box: givenBox,
      freqHz: number('Hz', { above: 0 }),
      voltRms: number('V', { above: 0 }),
      sourceOhm: sourceInput,
    },
    answer: ({ driver, box, sourceOhm, freqHz, voltRms }) =>
      success(driverResponse(driver, box, sourceOhm, freqHz, voltRms)),
  }),
];
