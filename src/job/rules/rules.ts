// The rules, by id.
import { batteryCableUnfusedEnd } from './battery-cable-unfused-end.ts';
import { batteryRestsLow } from './battery-rests-low.ts';
import { cableNotCopper } from './cable-not-copper.ts';
import { coverClosesOverUnproven } from './cover-closes-over-unproven.ts';
import { fuseMissingNearBattery } from './fuse-missing-near-battery.ts';
import { powerRunsCircular } from './power-runs-circular.ts';
import { referenceDangling } from './reference-dangling.ts';
import { routePassesDanger } from './route-passes-danger.ts';
import type { Rule } from './rule.ts';
import { supplyVoltageWrong } from './supply-voltage-wrong.ts';
import { turnOnOverloaded } from './turn-on-overloaded.ts';

export const rules: readonly Rule[] = [
  fuseMissingNearBattery,
  batteryCableUnfusedEnd,
  cableNotCopper,
  supplyVoltageWrong,
  turnOnOverloaded,
  batteryRestsLow,
  routePassesDanger,
  coverClosesOverUnproven,
  referenceDangling,
  powerRunsCircular,
];
