// The everyday calculations of a driver by itself.
import { type Calculation, calculation } from '../base/calculation.ts';
import { choice, number, optional } from '../base/calculation-inputs.ts';
import { refused } from '../base/refusal.ts';
import { success } from '../base/result.ts';
import { coilHeat, riseFromDcr, type UsualCoil, usualCoilHeat, usualCoils } from './coil-heat.ts';
import { checkDatasheet, unusualValues } from './datasheet.ts';
import { deriveDriver, sourceQ } from './driver.ts';
import { anyBox, driverFields, driverInput, driverOf, sourceInput } from './inputs.ts';
import { limitCalculations } from './limit-calculations.ts';
import { driverResponse } from './motion.ts';
import { sheetProposal } from './rebuilt-sheet.ts';

const positive = { above: 0 };

export const driversCalculations: readonly Calculation[] = [
  calculation({
    name: 'deriveDriver',
    about: 'everything that follows from the parameters of a driver',
    inputs: driverFields,
    eitherOf: [['mmsG', 'vasL']],
    answer(sheet) {
      const driver = driverOf(sheet);
      const { vasM3, cmsMPerN, eta0, spl1wDb, ...rest } = deriveDriver(driver);
      return success({
        ...rest,
        vasL: 1000 * vasM3,
        mmsG: 1000 * driver.mmsKg,
        cmsMmPerN: 1000 * cmsMPerN,
        eta0Pct: 100 * eta0,
        spl1w1mDb: spl1wDb,
      });
    },
  }),
  calculation({
    name: 'checkDatasheet',
    about: 'whether a data sheet agrees with itself, which value is suspect, and what would make it agree',
    inputs: {
      fsHz: optional(number('Hz', positive)),
      reOhm: optional(number('ohm', positive)),
      qms: optional(number('', positive)),
      qes: optional(number('', positive)),
      qts: optional(number('', positive)),
      vasL: optional(number('L', positive)),
      sdCm2: optional(number('cm2', positive)),
      mmsG: optional(number('g', positive)),
      cmsMmPerN: optional(number('mm/N', positive)),
      blTm: optional(number('T m', positive)),
      spl1w1mDb: optional(number('dB')),
    },
    answer(sheet) {
      const found = checkDatasheet(sheet);
      if (found !== null) {
        return success({ ...found, proposal: sheetProposal(sheet), unusual: unusualValues(sheet) });
      }
      const mend = 'Give qts, qms and qes, or fsHz, mmsG and cmsMmPerN, or more of the sheet.';
      return refused('missing', 'qts', 'There are too few values to hold any against another.', mend);
    },
  }),
  calculation({
    name: 'sourceQ',
    about: 'Q of a driver with resistance between amplifier and coil',
    inputs: {
      reOhm: number('ohm', positive),
      qes: number('', positive),
      qms: number('', positive),
      sourceOhm: sourceInput,
    },
    answer({ sourceOhm, ...driver }) {
      const { qes, qts } = sourceQ(driver, sourceOhm);
      return success({ qesEffective: qes, qtsEffective: qts });
    },
  }),
  calculation({
    name: 'driverAtFreq',
    about: 'level, stroke, impedance and current of a driver at one frequency',
    inputs: {
      driver: driverInput,
      box: anyBox,
      freqHz: number('Hz', positive),
      voltRms: number('V', positive),
      sourceOhm: sourceInput,
    },
    answer: ({ driver, box, sourceOhm, freqHz, voltRms }) =>
      success(driverResponse(driver, box, sourceOhm, freqHz, voltRms)),
  }),
  calculation({
    name: 'coilHeat',
    about: 'how hot a coil gets under steady power, and what that costs',
    inputs: {
      heatW: number('W', { min: 0 }),
      seconds: number('s', { min: 0 }),
      tauCoilS: number('s', positive),
      tauMagnetS: number('s', positive),
      rCoilKPerW: number('K/W', positive),
      rMagnetKPerW: number('K/W', positive),
    },
    answer: (given) => success(coilHeat(given)),
  }),
  calculation({
    name: 'usualCoilHeat',
    about: 'how hot a usual coil of its kind gets, whether it stands that, and the pause after it',
    caution:
      'Stop at the smell of coil, wait the pause and go down 3 dB. The figures are usual ones, not those of this driver.',
    inputs: {
      kind: choice(Object.keys(usualCoils) as UsualCoil[]),
      heatW: number('W', { min: 0 }),
      seconds: number('s', { min: 0 }),
    },
    answer: ({ kind, heatW, seconds }) => success(usualCoilHeat(kind, heatW, seconds)),
  }),
  calculation({
    name: 'riseFromDcr',
    about: 'how hot a coil is, by a cold and a hot reading',
    inputs: { coldOhm: number('ohm', positive), hotOhm: number('ohm', positive) },
    answer({ coldOhm, hotOhm }) {
      if (hotOhm >= coldOhm) return success(riseFromDcr(coldOhm, hotOhm));
      const message = `A hot coil reads more than a cold one, not ${hotOhm} ohm against ${coldOhm} ohm.`;
      return refused('contradiction', 'hotOhm', message, 'Check that the readings are not swapped.');
    },
  }),
  ...limitCalculations,
];
