// A data sheet held against itself: five relations, and which single value would mend them.
import { airStiffnessPa } from './air.ts';
import { referenceEfficiency, sensitivityDb, totalQ } from './driver.ts';

/** What a sheet says; whatever is there, all above 0 (the level any). */
export interface Datasheet {
  fsHz?: number | undefined;
  reOhm?: number | undefined;
  qms?: number | undefined;
  qes?: number | undefined;
  qts?: number | undefined;
  vasL?: number | undefined;
  sdCm2?: number | undefined;
  mmsG?: number | undefined;
  cmsMmPerN?: number | undefined;
  blTm?: number | undefined;
  spl1w1mDb?: number | undefined;
}

type Value = keyof Datasheet;
type Sheet = Record<Value, number>;

interface Relation {
  name: string;
  given: Value;
  tolerance: number;
  predicted: (sheet: Sheet) => number;
  /** The value of each part that makes the relation hold, all others kept. */
  mended: Partial<Record<Value, (sheet: Sheet) => number>>;
}

const angular = (fsHz: number) => 2 * Math.PI * fsHz;
const motor = ({ fsHz, mmsG, reOhm, qes }: Sheet) => Math.sqrt((angular(fsHz) * (mmsG / 1000) * reOhm) / qes);
const resonance = ({ mmsG, cmsMmPerN }: Sheet) => 1000 / (2 * Math.PI * Math.sqrt(mmsG * cmsMmPerN));
const vas = ({ sdCm2, cmsMmPerN }: Sheet) => airStiffnessPa * (sdCm2 / 1e4) ** 2 * cmsMmPerN;
const level = ({ fsHz, vasL, qes }: Sheet) => sensitivityDb(referenceEfficiency(fsHz, vasL / 1000, qes));

/** How much more sound the sheet says than its parameters give, as a ratio of powers. */
const louder = (sheet: Sheet) => 10 ** ((sheet.spl1w1mDb - level(sheet)) / 10);

/** In the order in which they are looked at. Tolerances: percent, and dB for the level. */
const relations: readonly Relation[] = [
  {
    name: 'Qts',
    given: 'qts',
    tolerance: 3,
    predicted: ({ qms, qes }) => totalQ(qms, qes),
    mended: {
      qts: ({ qms, qes }) => totalQ(qms, qes),
      qms: ({ qts, qes }) => 1 / (1 / qts - 1 / qes),
      qes: ({ qts, qms }) => 1 / (1 / qts - 1 / qms),
    },
  },
  {
    name: 'Fs',
    given: 'fsHz',
    tolerance: 3,
    predicted: resonance,
    mended: {
      fsHz: resonance,
      mmsG: (sheet) => sheet.mmsG * (resonance(sheet) / sheet.fsHz) ** 2,
      cmsMmPerN: (sheet) => sheet.cmsMmPerN * (resonance(sheet) / sheet.fsHz) ** 2,
    },
  },
  {
    name: 'Vas',
    given: 'vasL',
    tolerance: 6,
    predicted: vas,
    mended: {
      vasL: vas,
      sdCm2: (sheet) => sheet.sdCm2 * Math.sqrt(sheet.vasL / vas(sheet)),
      cmsMmPerN: (sheet) => sheet.cmsMmPerN * (sheet.vasL / vas(sheet)),
    },
  },
  {
    name: 'Bl',
    given: 'blTm',
    tolerance: 4,
    predicted: motor,
    mended: {
      blTm: motor,
      fsHz: (sheet) => sheet.fsHz * (sheet.blTm / motor(sheet)) ** 2,
      mmsG: (sheet) => sheet.mmsG * (sheet.blTm / motor(sheet)) ** 2,
      reOhm: (sheet) => sheet.reOhm * (sheet.blTm / motor(sheet)) ** 2,
      qes: (sheet) => sheet.qes * (motor(sheet) / sheet.blTm) ** 2,
    },
  },
  {
    name: 'Sens',
    given: 'spl1w1mDb',
    tolerance: 1.5,
    predicted: level,
    mended: {
      spl1w1mDb: level,
      fsHz: (sheet) => sheet.fsHz * Math.cbrt(louder(sheet)),
      vasL: (sheet) => sheet.vasL * louder(sheet),
      qes: (sheet) => sheet.qes / louder(sheet),
    },
  },
];

/** The relations whose values are all there. */
const testable = (sheet: Datasheet) =>
  relations.filter(({ mended }) => (Object.keys(mended) as Value[]).every((value) => sheet[value] !== undefined));

/** Percent by which what is given differs from what follows; dB for the level. */
function residual({ name, given, predicted }: Relation, sheet: Sheet): number {
  return name === 'Sens' ? sheet[given] - predicted(sheet) : 100 * (sheet[given] / predicted(sheet) - 1);
}

const isBroken = (relation: Relation, sheet: Sheet) => !(Math.abs(residual(relation, sheet)) <= relation.tolerance);

/** What drivers of cars have; outside it a unit is likely wrong. An assumption. */
const usual: Partial<Record<Value, [least: number, most: number]>> = {
  fsHz: [15, 3000],
  reOhm: [0.3, 16],
  qms: [1, 20],
  qes: [0.2, 3],
  vasL: [0.002, 500],
  sdCm2: [3, 1800],
  mmsG: [0.1, 600],
};

/** Values of a sheet that no usual driver has: to be asked about, not refused. */
export function unusualValues(sheet: Datasheet): { value: Value; given: number; least: number; most: number }[] {
  return Object.entries(usual).flatMap(([name, [least, most]]) => {
    const value = name as Value;
    const given = sheet[value];
    return given === undefined || (given >= least && given <= most) ? [] : [{ value, given, least, most }];
  });
}

/** Which relations hold, and which single value would mend them all. */
export interface DatasheetCheck {
  /** By relation, given against predicted: percent, and dB for `Sens`. */
  residuals: Record<string, number>;
  broken: string[];
  /** Sorted. One: that value is wrong. Several: any one of them. None with something broken: more than one is wrong. */
  suspects: Value[];
  /** Each suspect as given, and as it would have to be. */
  mends: { value: Value; given: number; mended: number }[];
}

/**
 * Holds a data sheet against itself. Each suspect alone, changed until the first broken relation holds, leaves none broken.
 *
 * @returns null where the sheet has too few values for any relation
 * Source: the relations of `deriveDriver`; their tolerances are what rounding and a fair measurement leave.
 */
export function checkDatasheet(given: Datasheet): DatasheetCheck | null {
  const tested = testable(given);
  if (tested.length === 0) return null;
  const sheet = given as Sheet;
  const broken = tested.filter((relation) => isBroken(relation, sheet));
  const mends = Object.entries(broken[0]?.mended ?? {})
    .map(([name, mend]) => ({ value: name as Value, given: sheet[name as Value], mended: mend(sheet) }))
    .filter(({ value, mended }) => {
      if (!Number.isFinite(mended) || (mended <= 0 && value !== 'spl1w1mDb')) return false;
      return tested.every((relation) => relation === broken[0] || !isBroken(relation, { ...sheet, [value]: mended }));
    })
    .sort((a, b) => (a.value < b.value ? -1 : 1));
  return {
    residuals: Object.fromEntries(tested.map((relation) => [relation.name, residual(relation, sheet)])),
    broken: broken.map(({ name }) => name),
    suspects: mends.map(({ value }) => value),
    mends,
  };
}
