// The rules, by id.
import { activeBeforePassive } from './active-before-passive.ts';
import { airbagInTheWay } from './airbag-in-the-way.ts';
import { alternatorShort } from './alternator-short.ts';
import { amplifierClipsFirst } from './amplifier-clips-first.ts';
import { amplifierOverpowersDriver } from './amplifier-overpowers-driver.ts';
import { amplifierUnderDriven } from './amplifier-under-driven.ts';
import { batteryCableUnfusedEnd } from './battery-cable-unfused-end.ts';
import { batteryRestsLow } from './battery-rests-low.ts';
import { boxHeldBadly } from './box-held-badly.ts';
import { boxUnlikeSheet } from './box-unlike-sheet.ts';
import { branchUnprotected } from './branch-unprotected.ts';
import { cableNotCopper } from './cable-not-copper.ts';
import { cableTooThin } from './cable-too-thin.ts';
import { chainBroken } from './chain-broken.ts';
import { channelUsedTwice } from './channel-used-twice.ts';
import { coilOhmsDiffer } from './coil-ohms-differ.ts';
import { coilsFedDifferently } from './coils-fed-differently.ts';
import { coilsShareUnevenly } from './coils-share-unevenly.ts';
import { coneSags } from './cone-sags.ts';
import { coverClosesOverUnproven } from './cover-closes-over-unproven.ts';
import { crossingGap } from './crossing-gap.ts';
import { crossingOverlap } from './crossing-overlap.ts';
import { dayTooLoud } from './day-too-loud.ts';
import { driverBeams } from './driver-beams.ts';
import { driverTooDeep } from './driver-too-deep.ts';
import { driverWithoutChannel } from './driver-without-channel.ts';
import { factoryProcessingLeft } from './factory-processing-left.ts';
import { fullToneOpensFuse } from './full-tone-opens-fuse.ts';
import { fuseLargerThanCable } from './fuse-larger-than-cable.ts';
import { fuseMissingNearBattery } from './fuse-missing-near-battery.ts';
import { fuseOpensInUse } from './fuse-opens-in-use.ts';
import { gapUnderCone } from './gap-under-cone.ts';
import { groundResists } from './ground-resists.ts';
import { groundTooThin } from './ground-too-thin.ts';
import { groundsApart } from './grounds-apart.ts';
import { highPassMissing } from './high-pass-missing.ts';
import { highPassTooLow } from './high-pass-too-low.ts';
import { hissAudible } from './hiss-audible.ts';
import { leadResists } from './lead-resists.ts';
import { leadTouchesBody } from './lead-touches-body.ts';
import { levelOutOfReach } from './level-out-of-reach.ts';
import { levelThrownAway } from './level-thrown-away.ts';
import { loadAboveRatings } from './load-above-ratings.ts';
import { loadBelowMinimum } from './load-below-minimum.ts';
import { loadLowInHeat } from './load-low-in-heat.ts';
import { lowPowerDriverDrivenHard } from './low-power-driver-driven-hard.ts';
import { outputWiredWrongly } from './output-wired-wrongly.ts';
import { outputsTooFew } from './outputs-too-few.ts';
import { pairDiffers } from './pair-differs.ts';
import { passiveLevelUnchecked } from './passive-level-unchecked.ts';
import { polarityOpposed } from './polarity-opposed.ts';
import { portTooFast } from './port-too-fast.ts';
import { powerRunsCircular } from './power-runs-circular.ts';
import { ratingImplausible } from './rating-implausible.ts';
import { readingUnlikePlan } from './reading-unlike-plan.ts';
import { referenceAboveClean } from './reference-above-clean.ts';
import { referenceDangling } from './reference-dangling.ts';
import { routePassesDanger } from './route-passes-danger.ts';
import type { Rule } from './rule.ts';
import { runNotShortTested } from './run-not-short-tested.ts';
import { secondOrderNotInverted } from './second-order-not-inverted.ts';
import { sheetContradictsItself } from './sheet-contradicts-itself.ts';
import { sidesLoadDifferently } from './sides-load-differently.ts';
import { signalLeadExposed } from './signal-lead-exposed.ts';
import { sourceTooHot } from './source-too-hot.ts';
import { speakerLevelIntoLine } from './speaker-level-into-line.ts';
import { strokeBinds } from './stroke-binds.ts';
import { subOverlapsMidbass } from './sub-overlaps-midbass.ts';
import { subsonicFilterMissing } from './subsonic-filter-missing.ts';
import { supplyCollapses } from './supply-collapses.ts';
import { supplyDrops } from './supply-drops.ts';
import { supplyTooLow } from './supply-too-low.ts';
import { supplyVoltageWrong } from './supply-voltage-wrong.ts';
import { takeWithOtherCovers } from './take-with-other-covers.ts';
import { turnOnOverloaded } from './turn-on-overloaded.ts';
import { unlikeDriversInSeries } from './unlike-drivers-in-series.ts';
import { waysDifferInSensitivity } from './ways-differ-in-sensitivity.ts';

export const rules: readonly Rule[] = [
  airbagInTheWay,
  highPassMissing,
  highPassTooLow,
  strokeBinds,
  sheetContradictsItself,
  amplifierOverpowersDriver,
  lowPowerDriverDrivenHard,
  coilOhmsDiffer,
  subsonicFilterMissing,
  fuseLargerThanCable,
  fuseMissingNearBattery,
  batteryCableUnfusedEnd,
  branchUnprotected,
  cableTooThin,
  fuseOpensInUse,
  supplyDrops,
  supplyTooLow,
  groundTooThin,
  groundResists,
  alternatorShort,
  ratingImplausible,
  cableNotCopper,
  supplyVoltageWrong,
  turnOnOverloaded,
  batteryRestsLow,
  routePassesDanger,
  runNotShortTested,
  loadBelowMinimum,
  loadAboveRatings,
  coilsShareUnevenly,
  unlikeDriversInSeries,
  sidesLoadDifferently,
  outputWiredWrongly,
  coilsFedDifferently,
  readingUnlikePlan,
  leadTouchesBody,
  leadResists,
  coverClosesOverUnproven,
  referenceDangling,
  powerRunsCircular,
  driverWithoutChannel,
  channelUsedTwice,
  chainBroken,
  amplifierUnderDriven,
  sourceTooHot,
  signalLeadExposed,
  speakerLevelIntoLine,
  referenceAboveClean,
  factoryProcessingLeft,
  outputsTooFew,
  crossingGap,
  crossingOverlap,
  subOverlapsMidbass,
  pairDiffers,
  polarityOpposed,
  secondOrderNotInverted,
  activeBeforePassive,
  passiveLevelUnchecked,
  amplifierClipsFirst,
  waysDifferInSensitivity,
  coneSags,
  boxUnlikeSheet,
  portTooFast,
  fullToneOpensFuse,
  supplyCollapses,
  loadLowInHeat,
  driverBeams,
  levelThrownAway,
  hissAudible,
  gapUnderCone,
  driverTooDeep,
  boxHeldBadly,
  takeWithOtherCovers,
  levelOutOfReach,
  dayTooLoud,
  groundsApart,
];
