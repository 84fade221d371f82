// What a microphone adds to the truth: correction files as people really have them, and the deviation at a frequency.
import { assertRange } from '../base/assert.ts';
import { failure, type Result, success } from '../base/result.ts';
import { rowIssues, rowUnreadable, tooFewRows, wrongFile } from './calibration-issues.ts';
import { type CalibrationRow, rowsOf } from './calibration-rows.ts';
import type { Sensitivity } from './microphone-sensitivity.ts';

/** A microphone's deviation over frequency. */
export interface MicrophoneCalibration {
  /** Rising, above 0; at least 2. */
  fHz: number[];
  /** Measured minus true, -20 .. 20 dB. */
  deviationDb: number[];
  /** Present if every row has it. */
  phaseDeg?: number[];
  /** If the file states one clearly. */
  sensitivity?: Sensitivity;
  /** What the file says in its own words, and what was made of what is odd about it. */
  notes: string[];
}

/**
 * A correction file: rows of frequency in Hz, deviation in dB and perhaps phase in degrees.
 *
 * Columns may be set apart by tabs, blanks, semicolons or commas, decimals by points or commas; lines that do not begin
 * with a number are comments. A frequency that comes twice with nearly the same deviation is taken once.
 *
 * @param text the file, up to 4 million characters; `textFromBytes` makes it from bytes
 * @returns the calibration; or issues `not-a-calibration`, `too-large`, `row-unreadable`, `frequency-impossible`,
 * `frequencies-not-ascending`, `frequency-twice`, `deviation-too-large`, `too-few-rows`, with the line
 */
export function parseMicrophoneCalibration(text: string): Result<MicrophoneCalibration> {
  const wrong = wrongFile(text);
  if (wrong) return failure(wrong);
  const { rows, notes, sensitivity, unreadable } = rowsOf(text);
  const issues = [...(unreadable.length > 0 ? [rowUnreadable(unreadable)] : []), ...rowIssues(rows)];
  const merged = issues.length === 0 ? mergedRows(rows, notes) : rows;
  if (issues.length === 0 && merged.length < 2) issues.push(tooFewRows(merged.length));
  if (issues.length > 0) return failure(...issues);

  const calibration: MicrophoneCalibration = {
    fHz: merged.map((row) => row.fHz),
    deviationDb: merged.map((row) => row.deviationDb),
    notes,
  };
  const phaseDeg = merged.map((row) => row.phaseDeg).filter((phase) => phase !== undefined);
  if (phaseDeg.length === merged.length) calibration.phaseDeg = phaseDeg;
  else if (phaseDeg.length > 0) notes.push('Only some rows have a phase, so it is not used.');
  if (sensitivity) calibration.sensitivity = sensitivity;
  const lastHz = merged[merged.length - 1].fHz;
  if (lastHz < 1000) notes.push(`The file ends at ${lastHz} Hz: check that its frequencies are in Hz.`);
  return success(calibration);
}

/**
 * A microphone's deviation at a frequency: linear in dB over log f between the rows, the end values outside.
 *
 * @param fHz above 0, finite
 * @returns dB, measured minus true: to be subtracted from what was measured; `outside` where no row reaches
 */
export function deviationAt(
  calibration: Pick<MicrophoneCalibration, 'fHz' | 'deviationDb'>,
  fHz: number,
): { deviationDb: number; outside: boolean } {
  assertRange('fHz', fHz, Number.MIN_VALUE, Number.MAX_VALUE);
  const { fHz: grid, deviationDb } = calibration;
  const last = grid.length - 1;
  if (fHz < grid[0]) return { deviationDb: deviationDb[0], outside: true };
  if (fHz > grid[last]) return { deviationDb: deviationDb[last], outside: true };
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (grid[middle] <= fHz) low = middle;
    else high = middle;
  }
  const share = high === low ? 0 : Math.log(fHz / grid[low]) / Math.log(grid[high] / grid[low]);
  return { deviationDb: deviationDb[low] + share * (deviationDb[high] - deviationDb[low]), outside: false };
}

/** Leaves out what carries nothing: 0 Hz, and frequencies that come again. */
function mergedRows(rows: CalibrationRow[], notes: string[]): CalibrationRow[] {
  const merged: CalibrationRow[] = [];
  let again = 0;
  for (const row of rows) {
    const before = merged.at(-1);
    if (row.fHz === 0) notes.push('The row at 0 Hz is left out.');
    else if (before?.fHz === row.fHz) again++;
    else merged.push(row);
  }
  if (again > 0)
    notes.push(`${again} rows repeat a frequency with nearly the same deviation; the first of each is used.`);
  return merged;
}
