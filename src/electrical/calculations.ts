// The everyday calculations of supply, cable, fuses and leads, in the order in which a job meets them.
import type { Calculation } from '../base/calculation.ts';
import { allowedCurrentCalculation } from './allowed-current.ts';
import { alternatorBudgetCalculation } from './alternator-budget.ts';
import { ampCurrentCalculation } from './amp-current.ts';
import { batteryTimeCalculation } from './battery-time.ts';
import { branchCheckCalculation } from './branch-check.ts';
import { capacitorRideCalculation } from './capacitor-ride.ts';
import { chooseFuseCalculation } from './choose-fuse.ts';
import { conductorResistanceCalculation } from './conductor-resistance.ts';
import { groundFromDropCalculation } from './ground-from-drop.ts';
import { regulatedSupplyCalculation } from './regulated-supply.ts';
import { signalLineCalculation } from './signal-line.ts';
import { speakerCableCalculation } from './speaker-cable.ts';
import { supplyDropCalculation } from './supply-drop.ts';
import { turnOnLeadCalculation } from './turn-on-lead.ts';
import { unregulatedSupplyCalculation } from './unregulated-supply.ts';
import { wireAreaCalculation } from './wire-area.ts';

export const electricalCalculations: readonly Calculation[] = [
  ampCurrentCalculation,
  supplyDropCalculation,
  regulatedSupplyCalculation,
  unregulatedSupplyCalculation,
  alternatorBudgetCalculation,
  batteryTimeCalculation,
  capacitorRideCalculation,
  wireAreaCalculation,
  conductorResistanceCalculation,
  allowedCurrentCalculation,
  chooseFuseCalculation,
  branchCheckCalculation,
  groundFromDropCalculation,
  turnOnLeadCalculation,
  speakerCableCalculation,
  signalLineCalculation,
];
