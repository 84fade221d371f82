// The impedance in free air that a sheet promises: what a measured curve is laid over.
import { type MeasuredJoin, promised, type SheetOfDriver } from './against-sheet.ts';
import { modelImpedance, sizeOf } from './impedance-model.ts';

/**
 * Impedance of a driver in free air by its sheet, ohm at each of `fHz`; null where the sheet lacks resistance, resonance
 * or one of the Qs. Without an inductance the curve does not rise above the peak.
 *
 * @param leMh   of one coil, 0 or more
 * @param coils  windings of the driver, 1 or more; coils on one former share their field
 * Source: as `modelImpedance`, the coil without losses; n coils in series on one former have n squared the inductance.
 */
export function sheetCurve(
  sheet: SheetOfDriver & { leMh?: number | undefined },
  coils: number,
  joined: MeasuredJoin,
  fHz: readonly number[],
): number[] | null {
  const { reOhm, fsHz, qms, qes } = promised(sheet, coils, joined);
  if (reOhm === undefined || fsHz === undefined || qms === undefined || qes === undefined) return null;
  const semiK = ((sheet.leMh ?? 0) / 1000) * (joined === 'series' ? coils * coils : 1);
  const model = { reOhm, fsHz, qms, peakOhm: (reOhm * qms) / qes, semiK, semiN: 1 };
  return fHz.map((f) => sizeOf(modelImpedance(model, f)));
}
