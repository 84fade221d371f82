// A sheet that contradicts itself, made whole again: one value changed where that is enough, else all that follow anew.
import { airStiffnessPa } from './air.ts';
import { checkDatasheet, type Datasheet } from './datasheet.ts';
import { type Driver, deriveDriver, massFromVas } from './driver.ts';

export type SheetValue = keyof Datasheet;

/** A value of the sheet, and what the others make of it. */
export interface SheetMend {
  value: SheetValue;
  given: number;
  mended: number;
}

export interface SheetProposal {
  /** One value is wrong, one of several may be and the least trusted was taken, or more than one is wrong. */
  how: 'one' | 'one-of-several' | 'rebuilt';
  mends: SheetMend[];
}

/** From what follows out of others to what comes straight off an impedance curve: the first is doubted first. */
const leastTrusted: readonly SheetValue[] = [
  'spl1w1mDb',
  'blTm',
  'cmsMmPerN',
  'qts',
  'vasL',
  'mmsG',
  'sdCm2',
  'qes',
  'qms',
  'fsHz',
  'reOhm',
];

/** Four figures: no sheet knows more. */
const rounded = (value: number) => Number(value.toPrecision(4));

/** The moving mass that agrees best with the force factor, else with the level; in g. */
function bestMassG(sheet: Datasheet, base: Omit<Driver, 'mmsKg'>): number | null {
  const { mmsG, vasL, cmsMmPerN, blTm, reOhm, spl1w1mDb } = sheet;
  const ofVas = (litres: number) => 1000 * massFromVas(base.fsHz, base.sdM2, litres / 1000);
  const candidates = [
    ...(mmsG === undefined ? [] : [mmsG]),
    ...(vasL === undefined ? [] : [ofVas(vasL)]),
    ...(mmsG === undefined && vasL === undefined && cmsMmPerN !== undefined
      ? [ofVas(airStiffnessPa * base.sdM2 ** 2 * cmsMmPerN)]
      : []),
  ];
  const away = (massG: number) => {
    const { blTm: bl, spl1wDb } = deriveDriver({ ...base, mmsKg: massG / 1000 });
    if (blTm !== undefined && reOhm !== undefined) return Math.abs(Math.log(blTm / bl));
    return spl1w1mDb === undefined ? 0 : Math.abs(spl1w1mDb - spl1wDb);
  };
  return candidates.reduce<number | null>((best, one) => (best === null || away(one) < away(best) ? one : best), null);
}

/**
 * The whole set of values that follows from resonance, resistance, both Qs, area and one moving mass; null where one of
 * these is not known. Without a resistance there is no force factor.
 *
 * Source: derivation by `deriveDriver`; the order of trust is practice: what an impedance sweep shows stands first, the
 * area next, then mass or air, and what is computed from them last.
 */
export function rebuiltSheet(sheet: Datasheet): Datasheet | null {
  const { fsHz, qms, qes, sdCm2, reOhm } = sheet;
  if (fsHz === undefined || qms === undefined || qes === undefined || sdCm2 === undefined) return null;
  const base = { fsHz, qms, qes, sdM2: sdCm2 / 1e4, reOhm: reOhm ?? 1, coil: { leH: 0 } };
  const mmsG = bestMassG(sheet, base);
  if (mmsG === null) return null;
  const { qts, vasM3, cmsMPerN, blTm, spl1wDb } = deriveDriver({ ...base, mmsKg: mmsG / 1000 });
  const level = { qts, vasL: 1000 * vasM3, cmsMmPerN: 1000 * cmsMPerN, spl1w1mDb: spl1wDb };
  return { fsHz, qms, qes, sdCm2, mmsG, ...level, ...(reOhm === undefined ? {} : { reOhm, blTm }) };
}

const isBroken = (sheet: Datasheet) => (checkDatasheet(sheet)?.broken.length ?? 0) > 0;

/**
 * What would make a sheet agree with itself: a proposal, which a measurement outranks.
 *
 * @returns null where it does not contradict itself, or too little is known to rebuild it
 */
export function sheetProposal(sheet: Datasheet): SheetProposal | null {
  const check = checkDatasheet(sheet);
  if (check === null || check.broken.length === 0) return null;
  const doubted = leastTrusted.find((value) => check.suspects.includes(value));
  const mend = check.mends.find(({ value }) => value === doubted);
  if (mend !== undefined) {
    const one = { ...mend, mended: rounded(mend.mended) };
    if (!isBroken({ ...sheet, [one.value]: one.mended })) {
      return { how: check.mends.length === 1 ? 'one' : 'one-of-several', mends: [one] };
    }
  }
  const whole = rebuiltSheet(sheet);
  if (whole === null) return null;
  const mends = leastTrusted.flatMap((value): SheetMend[] => {
    const [given, mended] = [sheet[value], whole[value]];
    if (given === undefined || mended === undefined || Math.abs(mended / given - 1) < 0.005) return [];
    return [{ value, given, mended: rounded(mended) }];
  });
  const after = { ...sheet, ...Object.fromEntries(mends.map(({ value, mended }) => [value, mended])) };
  return mends.length === 0 || isBroken(after) ? null : { how: 'rebuilt', mends };
}
