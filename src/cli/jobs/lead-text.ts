// The lead list as a person reads it on a terminal, and as a table.
import type { LeadRow } from '../../job/leads/lead-list.ts';
import { csvText } from '../csv.ts';
import type { TextStyle } from '../output.ts';
import { wrapped } from '../wrap.ts';

const ohms = (value: number | 'open') => (value === 'open' ? 'open' : `${Number(value.toPrecision(3))} ohm`);

/** 1/0 is 0, 2/0 is -1. */
const gaugeWords = (gauge: number) => (gauge > 0 ? `${gauge} AWG` : `${1 - gauge}/0 AWG`);

function size({ areaMm2, gauge, material }: LeadRow): string | null {
  if (areaMm2 === null || gauge === null) return material;
  const metal = material === null ? '' : ` ${material.replaceAll('-', ' ')}`;
  return `${Number(areaMm2.toPrecision(3))} mm2 (${gaugeWords(gauge)})${metal}`;
}

function expects({ expected }: LeadRow): string {
  if (expected === null) return '';
  const { lowOhm, highOhm } = expected;
  return lowOhm === 'open' ? 'Expect open. ' : `Expect ${Number(lowOhm.toPrecision(3))} to ${ohms(highOhm)}. `;
}

function leadLines(row: LeadRow, width: number): string[] {
  const { id, kind, colour, lengthM, from, to, measured, says, toBody, proof } = row;
  const facts = [kind, colour, lengthM === null ? null : `${lengthM} m`, size(row)].filter((fact) => fact !== null);
  const read = measured === null ? '' : `Reads ${ohms(measured.ohm)}. `;
  const body = toBody === null ? '' : ` To body ${ohms(toBody.ohm)}: ${toBody.verdict}.`;
  const lines = [
    `${id}  ${facts.join(', ')}`,
    `    from ${from?.words ?? 'not planned yet'}`,
    `    to   ${to?.words ?? 'not planned yet'}`,
    `    ${expects(row)}${read}${says}${body}${proof === null ? '' : ` Proven: ${proof}`}`,
  ];
  return [...lines.flatMap((line) => wrapped(line, width, 9)), ''];
}

export function leadsText(rows: readonly LeadRow[], style: TextStyle): string {
  if (rows.length === 0) return 'The plan has no leads yet.\n';
  return `${rows
    .flatMap((row) => leadLines(row, style.width))
    .join('\n')
    .trimEnd()}\n`;
}

const header = [
  ...['id', 'name', 'kind', 'from', 'fromWords', 'to', 'toWords', 'colour', 'lengthM', 'areaMm2', 'gaugeAwg'],
  ...['material', 'expectedLowOhm', 'expectedMidOhm', 'expectedHighOhm', 'measuredOhm', 'verdict', 'says'],
  ...['toBodyOhm', 'toBodyVerdict', 'proof', 'under'],
];

/** A line a lead, units in the header; "open" where a meter shows so. */
export function leadsCsv(rows: readonly LeadRow[]): string {
  const cells = (row: LeadRow) => [
    ...[row.id, row.name, row.kind, row.from?.terminal ?? null, row.from?.words ?? null],
    ...[row.to?.terminal ?? null, row.to?.words ?? null, row.colour, row.lengthM, row.areaMm2, row.gauge, row.material],
    ...[row.expected?.lowOhm ?? null, row.expected?.midOhm ?? null, row.expected?.highOhm ?? null],
    ...[row.measured?.ohm ?? null, row.verdict, row.says, row.toBody?.ohm ?? null, row.toBody?.verdict ?? null],
    ...[row.proof, row.under.join('; ')],
  ];
  return csvText(header, rows.map(cells));
}
