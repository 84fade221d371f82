// A table as people have it: commas, semicolons or tabs between cells, quotes around them, a first line that names the columns.
import { failure, type Issue, type Result, success } from './result.ts';

export interface Table {
  columns: string[];
  /** Of the header line, counted from 1. */
  headerLine: number;
  rows: { line: number; cells: string[] }[];
  /** Complaints about lines that are no rows. */
  issues: Issue[];
}

/** Longest table that is read: a shelf of drivers or a sheet of settings has far fewer lines. */
const linesMax = 5000;

export function tableIssue(line: number, message: string, mend: string): Issue {
  return { code: 'table-invalid', message, where: `line ${line}`, mend };
}

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
export function numberInCell(text: string): number | null {
  const unified = text.replace(',', '.');
  return /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i.test(unified) ? Number(unified) : null;
}

/**
 * The rows of a table; empty lines are left out, and a row may have fewer cells than there are columns.
 *
 * @param known  what the first line may name, for the person
 * @returns the table with its complaints, lines counted from 1; refused where nothing of it can be read
 */
export function tableIn(text: string, known: readonly string[]): Result<Table> {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  if (lines.length > linesMax) {
    return failure(tableIssue(linesMax + 1, `The table has ${lines.length} lines.`, `Give ${linesMax} at most.`));
  }
  const first = lines.findIndex((line) => line.trim() !== '');
  if (first < 0) return failure(tableIssue(1, 'The table is empty.', `Name the columns first: ${known.join(', ')}.`));
  const separator = [';', '\t', ','].find((sign) => lines[first].includes(sign)) ?? ',';
  const columns = cellsOf(lines[first], separator);
  const issues: Issue[] = [];
  const rows = lines.slice(first + 1).flatMap((line, n) => {
    if (line.trim() === '') return [];
    const cells = cellsOf(line, separator);
    const at = first + n + 2;
    if (cells.length <= columns.length) return [{ line: at, cells }];
    const message = `The line has ${cells.length} cells and the header ${columns.length}.`;
    const mend = separator === ',' ? 'Write decimals with a point, or use semicolons.' : 'Check its separators.';
    issues.push(tableIssue(at, message, mend));
    return [];
  });
  return success({ columns, headerLine: first + 1, rows, issues });
}
