// What a processor shows after it was saved, or after its power was off and on, held against the sheet.
import { z } from 'zod';
import { failure, type Result, success } from '../../base/result.ts';
import { numberInCell, tableIn, tableIssue } from '../../base/table-text.ts';
import type { SettingRow, SettingSheet, SettingValue } from './setting-sheet.ts';

/** Columns of a sheet as a table; whoever reads back fills in the last. */
export const sheetColumns = ['output', 'setting', 'unit', 'start', 'planned', 'read'] as const;

export const sheetSides = ['start', 'planned'] as const;
export type SheetSide = (typeof sheetSides)[number];

export interface ReadSetting {
  line: number;
  output: string;
  setting: string;
  /** Empty where nothing was read. */
  read: string;
}

export const readBackSchema = z.object({
  against: z.enum(sheetSides),
  settings: z.number().describe('that the sheet has a value for'),
  read: z.number(),
  differences: z.array(
    z.object({
      output: z.string(),
      setting: z.string(),
      unit: z.string().nullable(),
      expected: z.union([z.number(), z.string()]),
      read: z.union([z.number(), z.string()]),
      says: z.string(),
    }),
  ),
  notRead: z.array(z.object({ output: z.string(), setting: z.string() })),
  verdict: z.enum(['same', 'differs', 'not-complete']),
  says: z.string(),
});

export type ReadBack = z.infer<typeof readBackSchema>;

/** A sheet as rows of a table, in the order of the processor's outputs. */
export function sheetRows({ processors }: SettingSheet): (string | number | null)[][] {
  return processors.flatMap(({ outputs }) =>
    outputs.flatMap(({ output, rows }) =>
      rows.map(({ setting, unit, start, planned }) => [output, setting, unit, start, planned, null]),
    ),
  );
}

/** The table that somebody filled in; columns may stand in any order, those of the sheet itself may be missing. */
export function readSettings(text: string): Result<ReadSetting[]> {
  const table = tableIn(text, sheetColumns);
  if (!table.ok) return table;
  const { columns, headerLine, rows, issues } = table.value;
  const at = (name: string): number => columns.findIndex((column) => column.toLowerCase() === name);
  const [output, setting, read] = ['output', 'setting', 'read'].map(at);
  if (output < 0 || setting < 0 || read < 0) {
    const mend = 'Fill in the table that "kickpanel job settings JOB --csv F.csv" writes.';
    return failure(tableIssue(headerLine, 'The table needs the columns output, setting and read.', mend));
  }
  if (issues.length > 0) return failure(...issues);
  return success(
    rows.map(({ line, cells }) => ({
      line,
      output: cells[output] ?? '',
      setting: (cells[setting] ?? '').toLowerCase(),
      read: (cells[read] ?? '').replace(/^'/, ''),
    })),
  );
}

const words = (value: SettingValue, unit: string | null): string => `${value}${unit === null ? '' : ` ${unit}`}`;

/** What was read, as the kind of value that is expected; text that is no number stays text. */
function valueRead(expected: SettingValue, text: string): SettingValue {
  if (typeof expected === 'string') return text;
  return numberInCell(text.replace('\u2212', '-')) ?? text;
}

function isSame(expected: SettingValue, read: SettingValue, within: number): boolean {
  if (typeof expected === 'number') return typeof read === 'number' && Math.abs(read - expected) <= within + 1e-9;
  const plain = (text: SettingValue): string => String(text).toLowerCase().replaceAll(/\s+/g, ' ').trim();
  return plain(expected) === plain(read);
}

const expectedOf = (row: SettingRow, against: SheetSide): SettingValue | null => row[against];

/**
 * Every setting that was read, held against one side of the sheet.
 *
 * @param against  `start` before the first sound, `planned` at hand-over
 * @returns refused where a line names what the sheet does not have, or the same twice
 */
export function readBack(sheet: SettingSheet, lines: readonly ReadSetting[], against: SheetSide): Result<ReadBack> {
  const known = new Map<string, { output: string; row: SettingRow }>();
  for (const { outputs } of sheet.processors) {
    for (const { output, rows } of outputs) {
      for (const row of rows) known.set(`${output} ${row.setting}`, { output, row });
    }
  }
  const given = new Map<string, ReadSetting>();
  const issues = lines.flatMap((line) => {
    const key = `${line.output} ${line.setting}`;
    if (!known.has(key)) {
      const message = `The sheet has no setting "${line.setting}" of output "${line.output}".`;
      return [tableIssue(line.line, message, 'Keep output and setting as the sheet has them.')];
    }
    if (given.has(key)) return [tableIssue(line.line, `"${key}" is there twice.`, 'Keep one of them.')];
    given.set(key, line);
    return [];
  });
  if (issues.length > 0) return failure(...issues);
  const differences: ReadBack['differences'] = [];
  const notRead: ReadBack['notRead'] = [];
  let settings = 0;
  for (const [key, { output, row }] of known) {
    const expected = expectedOf(row, against);
    if (expected === null) continue;
    settings++;
    const text = given.get(key)?.read ?? '';
    const { setting, unit, within } = row;
    if (text === '') {
      notRead.push({ output, setting });
      continue;
    }
    const read = valueRead(expected, text);
    if (isSame(expected, read, within)) continue;
    const says = `${output} ${setting} reads ${words(read, unit)} and should be ${words(expected, unit)}.`;
    differences.push({ output, setting, unit, expected, read, says });
  }
  const read = settings - notRead.length;
  const verdict = differences.length > 0 ? 'differs' : notRead.length > 0 || read === 0 ? 'not-complete' : 'same';
  const says = {
    same: `All ${settings} settings read as they should.`,
    differs: `${differences.length} of ${read} settings that were read ${differences.length === 1 ? 'is' : 'are'} not as they should be.`,
    'not-complete': `${read} of ${settings} settings were read, and all of those are right: the rest is not proven.`,
  }[verdict];
  return success({ against, settings, read, differences, notRead, verdict, says });
}
