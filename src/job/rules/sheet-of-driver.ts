// A driver of the plan as a data sheet that can be held against itself, and values of a sheet back in the plan.
import { dbFromPower } from '../../base/decibel.ts';
import type { Datasheet } from '../../drivers/datasheet.ts';
import type { SheetValue } from '../../drivers/rebuilt-sheet.ts';
import { type PartOf, partSchemas } from '../../plan/plan.ts';

type Driver = PartOf<'driver'>;

/** What 2.83 V is above 1 W, dB; undefined where the sheet's level is not of one coil or its ohms are not known. */
function above1W({ sensitivityAt, reOhm, coils = 1 }: Driver): number | undefined {
  if (sensitivityAt === '1W') return 0;
  return sensitivityAt === undefined || reOhm === undefined || coils > 1 ? undefined : dbFromPower(8 / reOhm);
}

/** The sheet; of a driver with several coils only what does not depend on how they are joined. */
export function sheetOf(driver: Driver): Datasheet {
  const { fsHz, qms, qes, qts, vasL, sdCm2, mmsG, cmsMmPerN, reOhm, blTm, sensitivityDb, coils = 1 } = driver;
  const single = coils === 1 ? { reOhm, blTm } : {};
  const aboveDb = above1W(driver);
  const spl1w1mDb = sensitivityDb === undefined || aboveDb === undefined ? undefined : sensitivityDb - aboveDb;
  return { fsHz, qms, qes, qts, vasL, sdCm2, mmsG, cmsMmPerN, spl1w1mDb, ...single };
}

const rounded = (value: number) => Number(value.toPrecision(4));

/** The driver with values of its sheet changed; null where one of them is none that a plan can hold. */
export function withSheet(driver: Driver, mends: readonly { value: SheetValue; mended: number }[]): Driver | null {
  const changes = mends.map(({ value, mended }) =>
    value === 'spl1w1mDb' ? ['sensitivityDb', rounded(mended + (above1W(driver) ?? 0))] : [value, mended],
  );
  const found = partSchemas.driver.safeParse({ ...driver, ...Object.fromEntries(changes) });
  return found.success ? found.data : null;
}

/** Values of a sheet in words. */
export const sheetWords: Record<SheetValue, readonly [name: string, unit: string]> = {
  fsHz: ['resonance', 'Hz'],
  reOhm: ['resistance', 'ohm'],
  qms: ['mechanical Q', ''],
  qes: ['electrical Q', ''],
  qts: ['total Q', ''],
  vasL: ['equivalent air', 'L'],
  sdCm2: ['cone area', 'cm2'],
  mmsG: ['moving mass', 'g'],
  cmsMmPerN: ['compliance', 'mm/N'],
  blTm: ['force factor', 'T m'],
  spl1w1mDb: ['level at 1 W and 1 m', 'dB'],
};
