// Why a microphone calibration is not taken, in words, with the line.
import type { Issue } from '../base/result.ts';
import type { CalibrationRow, Rows } from './calibration-rows.ts';

const deviationMaxDb = 20;
const frequencyMinHz = 0.001;
const frequencyMaxHz = 1_000_000;
const textMax = 4_000_000;

/** What the text is if it is no calibration at all; undefined if it may be one. */
export function wrongFile(text: string): Issue | undefined {
  const start = text.replace(/^\ufeff/, '').trimStart();
  const refuse = (what: string): Issue => ({
    code: 'not-a-calibration',
    message: `This is ${what}, not a microphone calibration.`,
    where: 'line 1',
    mend: 'Give the text file that came with the microphone: frequency in Hz and deviation in dB on each line.',
  });
  if (text.length > textMax) {
    return {
      code: 'too-large',
      message: `The file has ${(text.length / 1e6).toFixed(1)} million characters; a calibration has some thousand.`,
      where: 'file size',
      mend: 'Give the text file that came with the microphone.',
    };
  }
  if (start === '') return refuse('an empty file');
  if (start.startsWith('{') || start.startsWith('[{') || /^\[\s*["[]/.test(start)) return refuse('a JSON text');
  if (start.startsWith('<')) return refuse('a web page or XML text');
  if (/^(RIFF|RIFX|RF64)/.test(start)) return refuse('a sound file');
  if (start.startsWith('%PDF')) return refuse('a PDF document');
  if (text.slice(0, 4096).includes('\0')) return refuse('no text');
  return undefined;
}

/** What is wrong with the numbers themselves, each kind once with its first line. */
export function rowIssues(rows: CalibrationRow[]): Issue[] {
  const issues: Issue[] = [];
  const add = (code: string, wrong: CalibrationRow[], message: (row: CalibrationRow) => string, mend: string) => {
    if (wrong.length === 0) return;
    const more = wrong.length > 1 ? ` (and ${wrong.length - 1} more)` : '';
    issues.push({ code, message: `${message(wrong[0])}${more}`, where: `line ${wrong[0].line}`, mend });
  };
  add(
    'frequency-impossible',
    rows.filter((row) => row.fHz < 0 || row.fHz > frequencyMaxHz || (row.fHz > 0 && row.fHz < frequencyMinHz)),
    (row) => `A frequency of ${row.fHz} Hz cannot be`,
    'The first column must be the frequency in Hz.',
  );
  add(
    'frequencies-not-ascending',
    rows.filter((row, i) => i > 0 && row.fHz < rows[i - 1].fHz),
    (row) => `${row.fHz} Hz comes after a higher frequency`,
    'Sort the lines from the lowest frequency to the highest; the first column must be the frequency in Hz.',
  );
  add(
    'frequency-twice',
    rows.filter(
      (row, i) => i > 0 && row.fHz === rows[i - 1].fHz && Math.abs(row.deviationDb - rows[i - 1].deviationDb) > 1,
    ),
    (row) => `${row.fHz} Hz comes twice, with deviations more than 1 dB apart`,
    'Leave one of the lines; if the file holds two directions (0 and 90 degrees), make a file of each.',
  );
  add(
    'deviation-too-large',
    rows.filter((row) => Math.abs(row.deviationDb) > deviationMaxDb),
    (row) =>
      `A deviation of ${row.deviationDb} dB is beyond the ${deviationMaxDb} dB either way that a microphone can have`,
    'The second column must be the deviation in dB; if it is a sensitivity, subtract its value at 1 kHz from all lines.',
  );
  return issues;
}

/** Lines among the rows that begin like one and are none; at least one. */
export function rowUnreadable(unreadable: Rows['unreadable']): Issue {
  const more = unreadable.length > 1 ? ` (and ${unreadable.length - 1} more)` : '';
  return {
    code: 'row-unreadable',
    message: `${JSON.stringify(unreadable[0].text)} is not a frequency and a deviation${more}.`,
    where: `line ${unreadable[0].line}`,
    mend: 'Write frequency in Hz and deviation in dB on each line with a tab or a semicolon between them, or begin the line with # if it is a comment.',
  };
}

/** Fewer than two rows carry anything. */
export function tooFewRows(count: number): Issue {
  return {
    code: 'too-few-rows',
    message: count === 0 ? 'There is no line with a frequency and a deviation.' : 'There is only one frequency.',
    where: 'whole file',
    mend: 'Give the text file that came with the microphone: frequency in Hz and deviation in dB on each line.',
  };
}
