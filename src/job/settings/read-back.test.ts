import { describe, expect, test } from 'vitest';
import { type ReadSetting, readBack, readBackSchema, readSettings, sheetColumns, sheetRows } from './read-back.ts';
import type { SettingSheet } from './setting-sheet.ts';

const row = (
  setting: string,
  unit: string | null,
  start: number | string | null,
  planned: number | string | null,
  within = 0,
) => ({
  setting,
  unit,
  start,
  planned,
  within,
  note: null,
});
const sheet: SettingSheet = {
  cautions: [],
  without: [],
  processors: [
    {
      processor: 'DSP',
      words: 'DSP',
      outputs: [
        {
          output: 'DSP/1',
          channel: 'C',
          words: 'C',
          drivers: [],
          notes: [],
          rows: [
            row('high-pass frequency', 'Hz', 5000, 3200, 0.5),
            row('polarity', null, 'normal', 'inverted'),
            row('gain', 'dB', -20, null, 0.25),
          ],
        },
      ],
    },
  ],
};

const line = (setting: string, read: string, output = 'DSP/1', at = 2): ReadSetting => ({
  line: at,
  output,
  setting,
  read,
});
function backOf(lines: ReadSetting[], against: 'start' | 'planned' = 'planned') {
  const found = readBack(sheet, lines, against);
  if (!found.ok) throw new Error(found.issues[0].message);
  return readBackSchema.parse(found.value);
}

describe('what is read back', () => {
  test('is the same within half a step, whatever the case of words', () => {
    const back = backOf([line('high-pass frequency', '3200,4'), line('polarity', ' Inverted')]);
    // The gain is not planned, so that nothing can be wrong with it.
    expect(back).toMatchObject({ verdict: 'same', settings: 2, read: 2, differences: [], notRead: [] });
  });

  test('differs where a number, a word or the sign of a number is another', () => {
    const back = backOf([line('high-pass frequency', '3201'), line('polarity', 'normal')]);
    expect(back.verdict).toBe('differs');
    expect(back.differences.map(({ says }) => says)).toEqual([
      'DSP/1 high-pass frequency reads 3201 Hz and should be 3200 Hz.',
      'DSP/1 polarity reads normal and should be inverted.',
    ]);
    const started = [line('high-pass frequency', '5000'), line('polarity', 'normal'), line('gain', '20')];
    expect(backOf(started, 'start').differences.map(({ setting }) => setting)).toEqual(['gain']);
    expect(backOf([line('gain', '\u221220')], 'start').differences).toEqual([]);
  });

  test('that is no number where one is expected differs, and is shown as it was written', () => {
    expect(backOf([line('high-pass frequency', 'full')]).differences[0]).toMatchObject({
      read: 'full',
      expected: 3200,
    });
  });

  test('proves nothing where something was left out', () => {
    expect(backOf([line('polarity', 'inverted'), line('high-pass frequency', '')])).toMatchObject({
      verdict: 'not-complete',
      read: 1,
      notRead: [{ output: 'DSP/1', setting: 'high-pass frequency' }],
    });
    expect(backOf([]).verdict).toBe('not-complete');
  });

  test('is refused where it names what the sheet does not have, or one thing twice', () => {
    const lines = [
      line('polarty', 'normal'),
      line('gain', '1', 'DSP/9', 3),
      line('gain', '1', 'DSP/1', 4),
      line('gain', '2', 'DSP/1', 5),
    ];
    const refused = readBack(sheet, lines, 'planned');
    expect(refused.ok ? [] : refused.issues.map(({ where }) => where)).toEqual(['line 2', 'line 3', 'line 5']);
  });
});

describe('a sheet as a table', () => {
  test('has a row for each setting, the last column free', () => {
    expect(sheetRows(sheet)[0]).toEqual(['DSP/1', 'high-pass frequency', 'Hz', 5000, 3200, null]);
    expect(sheetRows(sheet).every((cells) => cells.length === sheetColumns.length)).toBe(true);
  });

  test('is read with columns in any order, semicolons, and what a spreadsheet puts before a sign', () => {
    const read = readSettings("setting;output;read\nGain;DSP/1;'-20,5\n");
    expect(read).toEqual({ ok: true, value: [{ line: 2, output: 'DSP/1', setting: 'gain', read: '-20,5' }] });
  });

  test('is refused without its columns, or where a line has too many cells', () => {
    const where = (text: string) => {
      const read = readSettings(text);
      return read.ok ? [] : read.issues.map((issue) => issue.where);
    };
    expect(where('output,setting\nDSP/1,gain\n')).toEqual(['line 1']);
    expect(where('output,setting,read\nDSP/1,gain,-20,5\n')).toEqual(['line 2']);
    expect(where('')).toEqual(['line 1']);
  });
});
