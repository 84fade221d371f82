// The topics of `compute`. Each is loaded when it is asked for, so that help costs almost nothing.
import type { Calculation } from '../../base/calculation.ts';

export interface Topic {
  name: string;
  about: string;
  load: () => Promise<readonly Calculation[]>;
}

export const topics: readonly Topic[] = [
  {
    name: 'electrical',
    about: 'supply, cable, fuses, grounds and leads',
    load: async () => (await import('../../electrical/calculations.ts')).electricalCalculations,
  },
  {
    name: 'loads',
    about: 'coils in series and parallel, what the amplifier sees, what a meter reads',
    load: async () => (await import('../../drivers/load-calculations.ts')).loadsCalculations,
  },
  {
    name: 'drivers',
    about: 'what a driver does: parameters, data sheet, movement and level',
    load: async () => (await import('../../drivers/driver-calculations.ts')).driversCalculations,
  },
  {
    name: 'boxes',
    about: 'a driver in its box: level, stroke, impedance, air in the port',
    load: async () => (await import('../../drivers/box-calculations.ts')).boxesCalculations,
  },
  {
    name: 'gains',
    about: 'levels through the chain, test tones, clean ceiling, hiss',
    load: async () => (await import('../../electrical/gains/calculations.ts')).gainsCalculations,
  },
  {
    name: 'exposure',
    about: 'loudness and ears: allowed time, dose, protection',
    load: async () => (await import('../../signals/exposure/calculations.ts')).exposureCalculations,
  },
];
