// What labels are printed on: sheets of A4 with a grid, or a roll.
import { failure, type Issue, type Result, success } from '../../base/result.ts';

export interface Stock {
  kind: 'sheet' | 'roll';
  /** Of one label. */
  widthMm: number;
  heightMm: number;
  /** Between labels. */
  gapMm: number;
  /** Around the grid of a sheet. */
  marginMm: number;
}

export const defaultStock: Stock = { kind: 'sheet', widthMm: 24, heightMm: 12, gapMm: 2, marginMm: 10 };

/** A4. Source: ISO 216. */
export const sheetMm = { width: 210, height: 297 };

/** The code is square and as high as the label, up to this. */
export const codeSideMaxMm = 25;
/** Beside the code a name still wants this. */
const textLeastMm = 8;

const codeSideMm = ({ heightMm }: Stock) => Math.min(heightMm, codeSideMaxMm);

/** How many labels stand in a row and in a column of a sheet. */
export function gridOf({ widthMm, heightMm, gapMm, marginMm }: Stock): { columns: number; rows: number } {
  const many = (spaceMm: number, eachMm: number) =>
    Math.max(0, Math.floor((spaceMm - 2 * marginMm + gapMm) / (eachMm + gapMm) + 1e-9));
  return { columns: many(sheetMm.width, widthMm), rows: many(sheetMm.height, heightMm) };
}

/** The stock, if labels of that size can be made on it. */
export function stockOf(stock: Stock): Result<Stock> {
  const least = codeSideMm(stock) + textLeastMm;
  const issues: Issue[] = [];
  if (stock.widthMm < least - 1e-9) {
    const message = `A label of ${stock.widthMm} mm by ${stock.heightMm} mm has no room beside its code.`;
    issues.push({ code: 'label-too-narrow', message, where: '--width', mend: `Give --width ${least} or more.` });
  }
  const { columns, rows } = gridOf(stock);
  if (stock.kind === 'sheet' && (columns === 0 || rows === 0)) {
    const message = `No label of ${stock.widthMm} mm by ${stock.heightMm} mm fits on a sheet with margins of ${stock.marginMm} mm.`;
    issues.push({ code: 'label-too-large', message, where: '--width', mend: 'Give smaller labels or margins.' });
  }
  return issues.length > 0 ? failure(...issues) : success(stock);
}
