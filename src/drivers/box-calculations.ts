// The everyday calculations of a driver in its box.
import { type Calculation, calculation } from '../base/calculation.ts';
import { number, orElse } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';
import { cabinGain, cavityLevelDb, clearance } from './cabin.ts';
import { driverInput, fillInput, givenBox, sourceInput } from './inputs.ts';
import { driverResponse } from './motion.ts';
import { sealedBox, sealedVolume } from './sealed-box.ts';
import { volumeCalculations } from './volume-calculations.ts';

const positive = { above: 0 };

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
  calculation({
    name: 'sealed',
    about: 'resonance, Q and corner of a driver in a closed box',
    inputs: { driver: driverInput, vbL: number('L', positive), fillGain: fillInput, sourceOhm: sourceInput },
    answer: ({ driver, vbL, fillGain, sourceOhm }) => success(sealedBox(driver, vbL / 1000, fillGain, sourceOhm)),
  }),
  calculation({
    name: 'sealedForQ',
    about: 'net volume of a closed box for a wanted Q',
    inputs: { driver: driverInput, qtc: number('', positive), fillGain: fillInput, sourceOhm: sourceInput },
    answer({ driver, qtc, fillGain, sourceOhm }) {
      const volume = sealedVolume(driver, qtc, fillGain, sourceOhm);
      return volume.ok ? success({ vbL: 1000 * volume.value }) : volume;
    },
  }),
  calculation({
    name: 'cabinGain',
    about: 'what a closed cabin adds at a low frequency',
    inputs: {
      volumeM3: number('m3', positive),
      freqHz: number('Hz', positive),
      leakHz: orElse(number('Hz', { min: 0 }), 0),
      fullness: orElse(number('', { above: 0, max: 1 }), 1),
      refM: orElse(number('m', positive), 1),
    },
    answer: ({ volumeM3, freqHz, leakHz, fullness, refM }) =>
      success(cabinGain(volumeM3, freqHz, leakHz, fullness, refM)),
  }),
  calculation({
    name: 'cavityLevel',
    about: 'level of a cone in a tight cabin by the air it sweeps',
    inputs: { sdCm2: number('cm2', positive), xPeakMm: number('mm', positive), volumeM3: number('m3', positive) },
    answer: ({ sdCm2, xPeakMm, volumeM3 }) => success({ splDb: cavityLevelDb(sdCm2 / 1e4, xPeakMm / 1000, volumeM3) }),
  }),
  calculation({
    name: 'clearance',
    about: 'whether the gap before a cone that fires down is enough',
    inputs: {
      coneDiameterMm: number('mm', positive),
      xmechMm: number('mm', positive),
      gapMm: number('mm', { min: 0 }),
    },
    answer: ({ coneDiameterMm, xmechMm, gapMm }) => success(clearance(coneDiameterMm, xmechMm, gapMm)),
  }),
  ...volumeCalculations,
];
