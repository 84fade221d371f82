import { describe, expect, test } from 'vitest';
import { fuseChart } from '../../job/fuses/fuse-chart.ts';
import { leadList } from '../../job/leads/lead-list.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import type { Mark, PrintedPage } from '../print/marks.ts';
import { fuseTable } from './fuse-table.ts';
import { leadTable } from './lead-table.ts';
import { type Table, tablePages } from './table-pages.ts';

const plan = templatePlan('seven-channel');
const textsOf = ({ marks }: PrintedPage) => marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));

function isInside(mark: Mark): boolean {
  const right = mark.kind === 'text' ? mark.x + mark.widthMm : mark.x + mark.width;
  const bottom = mark.kind === 'text' ? mark.baseline : mark.y + mark.height;
  return mark.x >= 12 - 1e-9 && right <= 198 + 1e-9 && bottom <= 288;
}

describe('a printed table', () => {
  const leads = tablePages(leadTable(leadList(plan), 'Four doors, 0412'));
  const fuses = tablePages(fuseTable(fuseChart(plan), ''));

  test('of leads says both ends and what a meter should read', () => {
    expect(leads).toHaveLength(1);
    const texts = textsOf(leads[0]).join(' ');
    for (const words of ['Four doors, 0412', 'L11', 'Haldane Q4, channel 1', '3.06 to 3.74 ohm', 'Page 1 of 1']) {
      expect(texts).toContain(words);
    }
  });

  test('of fuses says what nobody knows yet as such', () => {
    expect(textsOf(fuses[0]).join(' ')).toContain('not known yet');
  });

  test('keeps every mark inside its margins, whatever the names', () => {
    const long = 'A name that nobody would give to a lead, but somebody did, and it goes on and on '.repeat(3);
    const { columns, ...rest }: Table = leadTable(leadList(plan), long);
    const hostile = { ...rest, columns, rows: Array.from({ length: 60 }, () => columns.map(() => long)) };
    const pages = [...leads, ...fuses, ...tablePages(hostile)];
    expect(pages.flatMap(({ marks }) => marks.filter((mark) => !isInside(mark)))).toEqual([]);
  });

  test('keeps cells in their columns', () => {
    const { columns } = leadTable([], '');
    const table = leadTable(leadList(plan), '');
    expect(table.columns.reduce((sum, { widthMm }) => sum + widthMm, 0)).toBe(186);
    expect(fuseTable([], '').columns.reduce((sum, { widthMm }) => sum + widthMm, 0)).toBe(186);
    expect(table.rows.every((row) => row.length === columns.length)).toBe(true);
  });

  test('goes on with as many pages as it takes, each with its number', () => {
    const { columns } = leadTable([], '');
    const pages = tablePages({ title: 'Leads', notes: [], columns, rows: Array.from({ length: 61 }, () => []) });
    expect(pages.length).toBeGreaterThan(1);
    expect(textsOf(pages[pages.length - 1])).toContain(`Page ${pages.length} of ${pages.length}`);
  });

  test('without rows says so', () => {
    expect(textsOf(tablePages(leadTable([], ''))[0])).toContain('There are none yet.');
  });
});
