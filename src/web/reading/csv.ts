// Curves as comma-separated values (RFC 4180): one line a frequency, the unit in the name of each column.
import type { ImpulseResponse, Reading } from '../../measurement/reading.ts';

export interface CsvColumn {
  name: string;
  fHz: readonly number[];
  values: readonly (number | boolean | null)[];
}

/** Frequencies that differ by less than this stand on one line. */
const sameShare = 1e-6;

function cell(value: number | boolean | null | undefined): string {
  if (value === null || value === undefined) return '';
  return typeof value === 'boolean' ? String(value) : String(Number(value.toPrecision(7)));
}

function quoted(name: string): string {
  return /[",\n]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name;
}

/** All columns over the union of their frequencies; an empty cell where a column has none. */
export function curvesCsv(columns: readonly CsvColumn[]): string {
  const all = columns.flatMap(({ fHz }) => fHz).sort((a, b) => a - b);
  const grid = all.filter((f, i) => i === 0 || f > all[i - 1] * (1 + sameShare));
  const at = columns.map(() => 0);
  const rows = grid.map((f) => {
    const cells = columns.map(({ fHz, values }, c) => {
      while (at[c] < fHz.length && fHz[at[c]] < f * (1 - sameShare)) at[c]++;
      return at[c] < fHz.length && fHz[at[c]] <= f * (1 + sameShare) ? cell(values[at[c]]) : '';
    });
    return [cell(f), ...cells].join(',');
  });
  return `${[['fHz', ...columns.map(({ name }) => quoted(name))].join(','), ...rows].join('\n')}\n`;
}

/** Level and phase over frequency. */
export function responseColumns({ response }: Reading): CsvColumn[] {
  if (!response) return [];
  const { fHz, levelDb, phaseDeg, valid, levelSigmaDb } = response;
  return [
    { name: 'levelDb', fHz, values: levelDb },
    { name: 'phaseDeg', fHz, values: phaseDeg },
    { name: 'valid', fHz, values: valid },
    { name: 'levelSigmaDb', fHz, values: levelSigmaDb },
  ];
}

/** Each harmonic over the frequency that played, and what noise alone would read. */
export function distortionColumns({ distortion }: Reading): CsvColumn[] {
  if (!distortion) return [];
  const { fHz, thdPct, h2Pct, h3Pct, h4Pct, h5Pct, floorPct, valid } = distortion;
  const curves = { thdPct, h2Pct, h3Pct, h4Pct, h5Pct, floorPct, distortionValid: valid };
  return Object.entries(curves).map(([name, values]) => ({ name, fHz, values }));
}

/** The impulse response, one line a sample: milliseconds from the direct sound, and the sample as it was computed. */
export function impulseCsv({ rateHz, arrivalIndex, samples }: ImpulseResponse): string {
  const rows = Array.from(samples, (value, i) => `${cell(((i - arrivalIndex) * 1000) / rateHz)},${cell(value)}`);
  return `${['timeMs,value', ...rows].join('\n')}\n`;
}
