// The everyday calculations of levels through the chain.
import type { Calculation } from '../../base/calculation.ts';
import { chainSnrCalculation } from './chain-snr.ts';
import { cleanCeilingCalculation } from './clean-ceiling.ts';
import { clippedSineCalculation } from './clipped-sine.ts';
import { gainStructureCalculation } from './gain-structure.ts';
import { hissCalculation } from './hiss.ts';
import { meterTrueCalculation } from './meter-true.ts';
import { overdriveForThdCalculation } from './overdrive-for-thd.ts';
import { sensFromReadingCalculation } from './sens-from-reading.ts';
import { targetVoltsCalculation } from './target-volts.ts';
import { testFrequencyCalculation } from './test-frequency.ts';
import { toneVoltsCalculation } from './tone-volts.ts';

export const gainsCalculations: readonly Calculation[] = [
  targetVoltsCalculation,
  sensFromReadingCalculation,
  toneVoltsCalculation,
  testFrequencyCalculation,
  meterTrueCalculation,
  clippedSineCalculation,
  overdriveForThdCalculation,
  cleanCeilingCalculation,
  gainStructureCalculation,
  hissCalculation,
  chainSnrCalculation,
];
