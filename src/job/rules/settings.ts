// What a shop may set of its rules; the defaults are trade practice.

export interface RuleSettings {
  /** Longest cable between battery plus and its fuse. */
  fuseDistanceMaxM: number;
  /** Drop between battery and amplifier at full sine: note, fix, stop; on 24 V the first is doubled. */
  dropNoteV: number;
  dropFixV: number;
  dropStopV: number;
  /** Lowest supply of an amplifier whose own is not known. */
  supplyMinV: number;
  groundLengthMaxM: number;
  groundDistanceMaxM: number;
  /** Amplifier over thermal power. */
  powerOverThermal: number;
  lowPowerThermalW: number;
  lowPowerXmaxMm: number;
  lowPowerAmplifierW: number;
  sensitivityDifferenceDb: number;
  /** Part by which a sub's low-pass may stand above the midbass's high-pass. */
  subOverlap: number;
  trimMinDb: number;
  unbalancedLengthMaxM: number;
  boxMassKg: number;
  boxFixings: number;
}

export const defaultSettings: RuleSettings = {
  fuseDistanceMaxM: 0.45,
  dropNoteV: 0.5,
  dropFixV: 0.7,
  dropStopV: 1.2,
  supplyMinV: 10.5,
  groundLengthMaxM: 0.5,
  groundDistanceMaxM: 1,
  powerOverThermal: 3,
  lowPowerThermalW: 30,
  lowPowerXmaxMm: 2,
  lowPowerAmplifierW: 50,
  sensitivityDifferenceDb: 8,
  subOverlap: 0.2,
  trimMinDb: -12,
  unbalancedLengthMaxM: 5,
  boxMassKg: 15,
  boxFixings: 2,
};
