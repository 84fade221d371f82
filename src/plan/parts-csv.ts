// Driver sheets from a table: header names with units, commas or semicolons, decimal point or decimal comma.
import { failure, type Issue, type Result, success } from '../base/result.ts';
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

/** The cells of one line; quotes keep separators in a cell, two quotes stand for one. */
function cellsOf(line: string, separator: string): string[] {
  const cells: string[] = [];
  let cell = '';
  let quoted = false;
  for (let n = 0; n < line.length; n++) {
    const sign = line[n];
    if (sign === '"' && quoted && line[n + 1] === '"') {
      cell += '"';
      n++;
    } else if (sign === '"') quoted = !quoted;
    else if (sign === separator && !quoted) {
      cells.push(cell.trim());
      cell = '';
    } else cell += sign;
  }
  return [...cells, cell.trim()];
}

/** A number with a point or a comma before its decimals; null where it is none. */
function numberIn(text: string): number | null {
  const unified = text.replace(',', '.');
  return /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i.test(unified) ? Number(unified) : null;
}

function issue(line: number, message: string, mend: string): Issue {
  return { code: 'table-invalid', message, where: `line ${line}`, mend };
}

/** Longest table that is read; a shelf of drivers has far fewer. */
const linesMax = 5000;

/**
 * Drivers from the text of a table, one a line, the first line naming the columns.
 *
 * @returns the drivers, or every complaint with its line, counted from 1
 */
export function driversFromTable(text: string): Result<PartOf<'driver'>[]> {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  if (lines.length > linesMax) {
    return failure(issue(linesMax + 1, `The table has ${lines.length} lines.`, `Give ${linesMax} at most.`));
  }
  const first = lines.findIndex((line) => line.trim() !== '');
  if (first < 0) return failure(issue(1, 'The table is empty.', `Name the columns first: ${fields.join(', ')}.`));
  const separator = [';', '\t', ','].find((sign) => lines[first].includes(sign)) ?? ',';
  const columns = cellsOf(lines[first], separator).map((header) => known.get(plain(header)) ?? `?${header}`);
  const issues = columns
    .filter((column, n) => column.startsWith('?') || columns.indexOf(column) !== n)
    .map((column) =>
      column.startsWith('?')
        ? issue(first + 1, `There is no column "${column.slice(1)}".`, `Known: ${fields.join(', ')}.`)
        : issue(first + 1, `The column "${column}" is there twice.`, 'Keep one of them.'),
    );
  if (issues.length > 0) return failure(...issues);
  const drivers: PartOf<'driver'>[] = [];
  lines.slice(first + 1).forEach((line, n) => {
    if (line.trim() === '') return;
    const at = first + n + 2;
    const cells = cellsOf(line, separator);
    if (cells.length > columns.length) {
      const message = `The line has ${cells.length} cells and the header ${columns.length}.`;
      const mend = separator === ',' ? 'Write decimals with a point, or use semicolons.' : 'Check its separators.';
      issues.push(issue(at, message, mend));
      return;
    }
    const made: [string, unknown][] = [];
    columns.forEach((column, index) => {
      const cell = cells[index] ?? '';
      if (cell === '') return;
      const value = numberIn(cell);
      const [field, factor] = otherUnits[column] ?? [column, 1];
      if (texts.includes(field) || value === null) made.push([field, cell]);
      else made.push([field, factor === 1 ? value : value * factor]);
    });
    const parsed = driver.safeParse(Object.fromEntries(made));
    if (parsed.success) drivers.push(parsed.data);
    else {
      for (const { path, message } of parsed.error.issues) {
        issues.push(issue(at, `${path.join('.') || 'The line'}: ${message}.`, 'Mend this cell.'));
      }
    }
  });
  return issues.length > 0 ? failure(...issues) : success(drivers);
}
