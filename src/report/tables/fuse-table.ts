// The fuse chart for the clipboard and for the lid over the fuses.
import type { FuseRow } from '../../job/fuses/fuse-chart.ts';
import type { Table } from './table-pages.ts';

const amperes = (value: number | null) => (value === null ? 'not known' : `${Number(value.toPrecision(3))} A`);

const words: Record<FuseRow['verdict'], string> = {
  holds: 'holds',
  'larger-than-cable': 'LARGER THAN ITS CABLE',
  'opens-in-use': 'opens in use',
  'no-fuse': 'NO FUSE',
  'cannot-say': 'not known yet',
};

/** The fuse chart as a table. */
export function fuseTable(rows: readonly FuseRow[], about: string): Table {
  return {
    title: 'Fuses',
    notes: [
      ...(about === '' ? [] : [about]),
      'The main fuse stays out until every run is checked for shorts to body. A fuse is never larger than its cable allows.',
    ],
    columns: [
      { head: '', widthMm: 6, blank: 'box' },
      { head: 'Fuse', widthMm: 16, bold: true },
      { head: 'Rating', widthMm: 22, bold: true },
      { head: 'From', widthMm: 32 },
      { head: 'To', widthMm: 32 },
      { head: 'Cable, allowed', widthMm: 36 },
      { head: 'Music', widthMm: 18 },
      { head: '', widthMm: 24 },
    ],
    rows: rows.map((row) => [
      '',
      row.fuse ?? '-',
      row.ratedA === null ? 'not known' : `${row.ratedA} A${row.family === null ? '' : ` ${row.family}`}`,
      `${row.from ?? 'not planned yet'}${row.atM === null ? '' : `, at ${row.atM} m`}`,
      row.to ?? 'not planned yet',
      `${row.cable}, ${amperes(row.allowedA)}`,
      amperes(row.musicA),
      words[row.verdict],
    ]),
  };
}
