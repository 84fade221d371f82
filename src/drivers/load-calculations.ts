// The everyday calculations of coils, loads and what a meter reads.
import type { Calculation } from '../base/calculation.ts';
import { coilCheckLfCalculation } from './loads/coil-check-lf.ts';
import { groupSetCalculation } from './loads/coil-group-set.ts';
import { networkSharesCalculation } from './loads/coil-network.ts';
import { dcrExpectCalculation, reFromReadingCalculation } from './loads/coil-reading.ts';
import { wiringFromReadingCalculation } from './loads/coil-wiring-from-reading.ts';
import { wiringSetCalculation } from './loads/coil-wiring-set.ts';
import { bridgedViewCalculation, loadPowerCalculation } from './loads/load-power.ts';

export const loadsCalculations: readonly Calculation[] = [
  wiringSetCalculation,
  groupSetCalculation,
  networkSharesCalculation,
  loadPowerCalculation,
  bridgedViewCalculation,
  dcrExpectCalculation,
  reFromReadingCalculation,
  wiringFromReadingCalculation,
  coilCheckLfCalculation,
];
