// The lead list for the clipboard: what a meter should read, and a line to write what it read.
import type { LeadRow } from '../../job/leads/lead-list.ts';
import type { Table } from './table-pages.ts';

const ohms = (value: number | 'open') => (value === 'open' ? 'open' : String(Number(value.toPrecision(3))));

/** 1/0 is 0, 2/0 is -1. */
const gaugeWords = (gauge: number) => (gauge > 0 ? `${gauge} AWG` : `${1 - gauge}/0 AWG`);

function expects({ expected }: LeadRow): string {
  if (expected === null) return '';
  if (expected.lowOhm === 'open') return 'open';
  return `${ohms(expected.lowOhm)} to ${ohms(expected.highOhm)} ohm`;
}

function size({ areaMm2, gauge, lengthM }: LeadRow): string {
  const wire =
    areaMm2 === null || gauge === null ? [] : [`${Number(areaMm2.toPrecision(3))} mm2, ${gaugeWords(gauge)}`];
  return [...wire, ...(lengthM === null ? [] : [`${lengthM} m`])].join(', ');
}

/** The lead list as a table, in the order of the walk. */
export function leadTable(rows: readonly LeadRow[], about: string): Table {
  return {
    title: 'Leads',
    notes: [
      ...(about === '' ? [] : [about]),
      'Amplifier unplugged, read at its end of the lead. Each lead must also read open to body metal.',
    ],
    columns: [
      { head: '', widthMm: 6, blank: 'box' },
      { head: 'Lead', widthMm: 16, bold: true },
      { head: 'From', widthMm: 40 },
      { head: 'To', widthMm: 40 },
      { head: 'Colour', widthMm: 20 },
      { head: 'Size', widthMm: 24 },
      { head: 'Should read', widthMm: 20 },
      { head: 'Reads', widthMm: 20, blank: 'line' },
    ],
    rows: rows.map((row) => [
      '',
      row.id,
      row.from?.words ?? 'not planned yet',
      row.to?.words ?? 'not planned yet',
      row.colour ?? '',
      size(row),
      expects(row),
      '',
    ]),
  };
}
