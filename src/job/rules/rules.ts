// The rules, by id.
import { activeBeforePassive } from './active-before-passive.ts';
import { airbagInTheWay } from './airbag-in-the-way.ts';
import { batteryCableUnfusedEnd } from './battery-cable-unfused-end.ts';
import { batteryRestsLow } from './battery-rests-low.ts';
import { cableNotCopper } from './cable-not-copper.ts';
import { chainBroken } from './chain-broken.ts';
import { channelUsedTwice } from './channel-used-twice.ts';
import { coilsFedDifferently } from './coils-fed-differently.ts';
import { coverClosesOverUnproven } from './cover-closes-over-unproven.ts';
import { crossingGap } from './crossing-gap.ts';
import { crossingOverlap } from './crossing-overlap.ts';
import { driverWithoutChannel } from './driver-without-channel.ts';
import { fuseMissingNearBattery } from './fuse-missing-near-battery.ts';
import { highPassMissing } from './high-pass-missing.ts';
import { leadTouchesBody } from './lead-touches-body.ts';
import { outputWiredWrongly } from './output-wired-wrongly.ts';
import { outputsTooFew } from './outputs-too-few.ts';
import { pairDiffers } from './pair-differs.ts';
import { passiveLevelUnchecked } from './passive-level-unchecked.ts';
import { polarityOpposed } from './polarity-opposed.ts';
import { powerRunsCircular } from './power-runs-circular.ts';
import { referenceDangling } from './reference-dangling.ts';
import { routePassesDanger } from './route-passes-danger.ts';
import type { Rule } from './rule.ts';
import { secondOrderNotInverted } from './second-order-not-inverted.ts';
import { signalLeadExposed } from './signal-lead-exposed.ts';
import { sourceTooHot } from './source-too-hot.ts';
import { speakerLevelIntoLine } from './speaker-level-into-line.ts';
import { subOverlapsMidbass } from './sub-overlaps-midbass.ts';
import { supplyVoltageWrong } from './supply-voltage-wrong.ts';
import { turnOnOverloaded } from './turn-on-overloaded.ts';
import { unlikeDriversInSeries } from './unlike-drivers-in-series.ts';

export const rules: readonly Rule[] = [
  airbagInTheWay,
  highPassMissing,
  fuseMissingNearBattery,
  batteryCableUnfusedEnd,
  cableNotCopper,
  supplyVoltageWrong,
  turnOnOverloaded,
  batteryRestsLow,
  routePassesDanger,
  unlikeDriversInSeries,
  outputWiredWrongly,
  coilsFedDifferently,
  leadTouchesBody,
  coverClosesOverUnproven,
  referenceDangling,
  powerRunsCircular,
  driverWithoutChannel,
  channelUsedTwice,
  chainBroken,
  sourceTooHot,
  signalLeadExposed,
  speakerLevelIntoLine,
  outputsTooFew,
  crossingGap,
  crossingOverlap,
  subOverlapsMidbass,
  pairDiffers,
  polarityOpposed,
  secondOrderNotInverted,
  activeBeforePassive,
  passiveLevelUnchecked,
];
