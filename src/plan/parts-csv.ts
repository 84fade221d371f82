// Driver sheets from a table: header names with units, commas or semicolons, decimal point or decimal comma.
import { failure, type Result, success } from '../base/result.ts';
import { numberInCell, tableIn, tableIssue } from '../base/table-text.ts';
import { driver } from './driver-parts.ts';
import type { PartOf } from './plan.ts';

const texts = ['id', 'name', 'make', 'model', 'kind', 'intendedUse', 'note'];
const fields = Object.keys(driver.shape);

/** Other units that a sheet may use, as header endings, with what makes the plan's unit of them. */
const otherUnits: Record<string, [field: string, factor: number]> = {
  sdM2: ['sdCm2', 1e4],
  mmsKg: ['mmsG', 1e3],
  vasM3: ['vasL', 1e3],
  leUh: ['leMh', 1e-3],
  xmaxM: ['xmaxMm', 1e3],
  fsKhz: ['fsHz', 1e3],
};

/** `Fs (Hz)`, `fs_hz` and `fsHz` are one name. */
const plain = (text: string) => text.toLowerCase().replaceAll(/[^a-z0-9]/g, '');
const known = new Map([...fields, ...Object.keys(otherUnits)].map((field) => [plain(field), field]));

/**
 * Drivers from the text of a table, one a line, the first line naming the columns.
 *
 * @returns the drivers, or every complaint with its line, counted from 1
 */
export function driversFromTable(text: string): Result<PartOf<'driver'>[]> {
  const table = tableIn(text, fields);
  if (!table.ok) return table;
  const { headerLine, rows } = table.value;
  const columns = table.value.columns.map((header) => known.get(plain(header)) ?? `?${header}`);
  const issues = columns
    .filter((column, n) => column.startsWith('?') || columns.indexOf(column) !== n)
    .map((column) =>
      column.startsWith('?')
        ? tableIssue(headerLine, `There is no column "${column.slice(1)}".`, `Known: ${fields.join(', ')}.`)
        : tableIssue(headerLine, `The column "${column}" is there twice.`, 'Keep one of them.'),
    );
  if (issues.length > 0) return failure(...issues);
  const drivers: PartOf<'driver'>[] = [];
  for (const { line, cells } of rows) {
    const made: [string, unknown][] = [];
    columns.forEach((column, index) => {
      const cell = cells[index] ?? '';
      if (cell === '') return;
      const value = numberInCell(cell);
      const [field, factor] = otherUnits[column] ?? [column, 1];
      if (texts.includes(field) || value === null) made.push([field, cell]);
      else made.push([field, factor === 1 ? value : value * factor]);
    });
    const parsed = driver.safeParse(Object.fromEntries(made));
    if (parsed.success) drivers.push(parsed.data);
    else {
      for (const { path, message } of parsed.error.issues) {
        issues.push(tableIssue(line, `${path.join('.') || 'The line'}: ${message}.`, 'Mend this cell.'));
      }
    }
  }
  issues.push(...table.value.issues);
  return issues.length > 0 ? failure(...issues) : success(drivers);
}
