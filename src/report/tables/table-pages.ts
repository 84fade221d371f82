// A table on A4 for the clipboard: a heading, columns of fixed width, rows as high as their longest cell, as many pages as
// it takes.
import type { Mark, PrintedPage } from '../print/marks.ts';
import { fittedText, LEADING, printable, textWidthMm } from '../print/text-width.ts';

export interface Column {
  head: string;
  widthMm: number;
  bold?: boolean;
  /** A box to tick, or a line to write on. */
  blank?: 'box' | 'line';
}

export interface Table {
  title: string;
  /** What it is of, and what must be seen to. */
  notes: readonly string[];
  columns: readonly Column[];
  /** A text for each column; of columns to be filled in it does not matter. */
  rows: readonly (readonly string[])[];
}

/** A4. Source: ISO 216. */
const PAGE = { widthMm: 210, heightMm: 297 };
const MARGIN_MM = 12;
const SIZE_MM = 2.8;
const LINE_MM = LEADING * SIZE_MM;
const PAD_MM = 1.2;
/** Never thinner than a dot of a screen, where thinner ones are left out. */
const RULE_MM = 0.3;
/** Cells of more lines than this are set smaller. */
const LINES_MAX = 2;

const rect = (x: number, y: number, width: number, height: number): Mark => ({
  ...{ kind: 'rect', paint: 'ink', x, y, width, height },
});

function line(
  text: string,
  x: number,
  baseline: number,
  sizeMm: number,
  bold = false,
  mostMm = Number.MAX_VALUE,
): Mark {
  const ready = printable(text);
  const widthMm = Math.min(mostMm, textWidthMm(ready, sizeMm, bold));
  return { kind: 'text', x, baseline, sizeMm, widthMm, text: ready, bold };
}

/** The marks of one cell with its top left corner at `x`, `y`. */
function cell(column: Column, text: string, x: number, y: number): Mark[] {
  const widthMm = column.widthMm - PAD_MM;
  const high = LINES_MAX * LINE_MM;
  if (column.blank === 'box') {
    const side = 4;
    const [left, top] = [x, y + (high - side) / 2 + PAD_MM];
    return [
      rect(left, top, side, RULE_MM),
      rect(left, top + side, side, RULE_MM),
      rect(left, top, RULE_MM, side),
      rect(left + side, top, RULE_MM, side + RULE_MM),
    ];
  }
  if (column.blank === 'line') return [rect(x, y + high + PAD_MM - 0.6, widthMm, RULE_MM)];
  const field = { widthMm, heightMm: high };
  const fitted = fittedText([{ text, bold: column.bold ?? false }], field, { mostMm: SIZE_MM, leastMm: 1.8 });
  return fitted.lines.map(
    (found, n): Mark => ({
      kind: 'text',
      x,
      baseline: y + PAD_MM + (n + 1) * LEADING * fitted.sizeMm - 0.24 * fitted.sizeMm,
      sizeMm: fitted.sizeMm,
      ...found,
    }),
  );
}

/** Where each column begins. */
function columnStarts(columns: readonly Column[]): number[] {
  let at = MARGIN_MM;
  return columns.map(({ widthMm }) => {
    const start = at;
    at += widthMm;
    return start;
  });
}

/** The table as pages; at least one, so that an empty table says so. */
export function tablePages({ title, notes, columns, rows }: Table): PrintedPage[] {
  const starts = columnStarts(columns);
  const widthMm = PAGE.widthMm - 2 * MARGIN_MM;
  const rowMm = LINES_MAX * LINE_MM + 2 * PAD_MM;
  const headMm = MARGIN_MM + 8 + notes.length * 4 + 7;
  const each = Math.floor((PAGE.heightMm - MARGIN_MM - 6 - headMm) / rowMm);
  const many = Math.max(1, Math.ceil(rows.length / each));
  return Array.from({ length: many }, (_, page): PrintedPage => {
    const marks: Mark[] = [
      line(title, MARGIN_MM, MARGIN_MM + 5, 5, true, widthMm),
      ...notes.map((note, n) => line(note, MARGIN_MM, MARGIN_MM + 10 + 4 * n, SIZE_MM, false, widthMm)),
      ...columns.map(({ head, widthMm: wide }, n) => line(head, starts[n], headMm - 1.5, 2.4, true, wide - PAD_MM)),
      rect(MARGIN_MM, headMm, widthMm, RULE_MM),
    ];
    rows.slice(page * each, (page + 1) * each).forEach((row, n) => {
      const y = headMm + n * rowMm;
      for (const [index, column] of columns.entries()) marks.push(...cell(column, row[index] ?? '', starts[index], y));
      marks.push(rect(MARGIN_MM, y + rowMm, widthMm, RULE_MM));
    });
    if (rows.length === 0) marks.push(line('There are none yet.', MARGIN_MM, headMm + 6, SIZE_MM));
    marks.push(line(`Page ${page + 1} of ${many}`, MARGIN_MM, PAGE.heightMm - MARGIN_MM + 2, 2.4));
    return { ...PAGE, marks };
  });
}
