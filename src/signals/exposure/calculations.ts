// The everyday calculations about ears.
import type { Calculation } from '../../base/calculation.ts';
import { allowedTimeCalculation } from './allowed-time.ts';
import { aWeightCalculation, bandsToDbaCalculation, combineLevelsCalculation } from './band-levels.ts';
import { doseCalculation, leqCalculation, remainingCalculation } from './dose.ts';
import { peakCheckCalculation } from './peak-check.ts';
import { protectedLevelCalculation } from './protected-level.ts';

export const exposureCalculations: readonly Calculation[] = [
  allowedTimeCalculation,
  doseCalculation,
  remainingCalculation,
  leqCalculation,
  combineLevelsCalculation,
  aWeightCalculation,
  bandsToDbaCalculation,
  protectedLevelCalculation,
  peakCheckCalculation,
];
