// The rows of a calibration file, told from its words.
import { type NumberStyle, numberStyle, rowNumbers, tidyRow } from './calibration-numbers.ts';
import { type Sensitivity, sensitivityIn } from './microphone-sensitivity.ts';

/** More of a line is no row of numbers; the patterns here take their time with endless blanks. */
const lineMax = 500;
const wordsMax = 40;

/** One frequency, and the line it stands in, counted from 1. */
export interface CalibrationRow {
  line: number;
  fHz: number;
  deviationDb: number;
  phaseDeg: number | undefined;
}

/** What a text holds, before anything is asked of the numbers. */
export interface Rows {
  rows: CalibrationRow[];
  notes: string[];
  /** Lines among the rows that begin like one and are none. */
  unreadable: { line: number; text: string }[];
  sensitivity: Sensitivity | undefined;
}

/** The rows of a text, what it says besides, and the lines that are neither. */
export function rowsOf(text: string): Rows {
  const lines = text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\n|\r/)
    .map((line) => line.slice(0, lineMax));
  const tidy = lines.map((line) => (beginsWithNumber(line) ? tidyRow(line) : ''));
  const style = numberStyle(tidy.filter((row) => row !== ''));
  const found: Rows = { rows: [], notes: [], unreadable: [], sensitivity: undefined };
  let unsure = 0;
  let kiloHertz = false;
  lines.forEach((line, index) => {
    const read = tidy[index] === '' ? undefined : readRow(line, tidy[index], index + 1, style, found.rows.at(-1));
    if (read) {
      found.rows.push(read.row);
      if (read.unsure) unsure++;
    } else if (tidy[index] !== '' && found.rows.length > 0) {
      found.unreadable.push({ line: index + 1, text: line.trim().slice(0, 80) });
    } else {
      takeWords(line, found);
      kiloHertz ||= found.rows.length === 0 && /(freq\w*|\bf)\W*kHz/i.test(line);
    }
  });
  if (unsure > 0) {
    found.notes.push(`${unsure} rows have commas that allow two readings; the one nearer to the row before was taken.`);
  }
  if (kiloHertz && found.rows.every((row) => row.fHz <= 200)) {
    for (const row of found.rows) row.fHz *= 1000;
    found.notes.push('The frequencies are in kHz by the heading.');
  }
  return found;
}

function beginsWithNumber(line: string): boolean {
  return /^\s*["']?\s*[+\-\u2212\u2013]?[.,]?\d/.test(line);
}

function readRow(
  line: string,
  tidy: string,
  lineNumber: number,
  style: NumberStyle,
  before: CalibrationRow | undefined,
): { row: CalibrationRow; unsure: boolean } | undefined {
  const { numbers, unsure } = rowNumbers(tidy, style, before?.deviationDb ?? 0);
  if (numbers.length < 2) return undefined;
  const factor = /^\s*["']?[\d.,]+\s*kHz/i.test(line) ? 1000 : 1;
  const row = { line: lineNumber, fHz: numbers[0] * factor, deviationDb: numbers[1], phaseDeg: numbers[2] };
  return { row, unsure };
}

/** Keeps what the file says in words, without the marks that comments begin with. */
function takeWords(line: string, found: Rows): void {
  const words = line.replace(/^[\s#*;/!%"']+|[\s;,"']+$/g, '').slice(0, 200);
  if (words === '' || found.notes.length >= wordsMax) return;
  found.notes.push(words);
  found.sensitivity ??= sensitivityIn(words);
}
