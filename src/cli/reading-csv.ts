// A reading as a table for a spreadsheet: one line a frequency, the unit in the name of each column.
import type { Distortion, Reading } from '../measurement/reading.ts';

/** Frequencies that differ by less than this stand on one line. */
const sameShare = 1e-6;

function cell(value: number | boolean | null | undefined): string {
  if (value === null || value === undefined) return '';
  return typeof value === 'boolean' ? String(value) : String(Number(value.toPrecision(7)));
}

/** Index of each of `fHz` in `other`, or -1; both rise. */
function sameFrequencies(fHz: number[], other: number[]): number[] {
  let at = 0;
  return fHz.map((f) => {
    while (at < other.length && other[at] < f * (1 - sameShare)) at++;
    return at < other.length && other[at] <= f * (1 + sameShare) ? at : -1;
  });
}

const distortionColumns = ['thdPct', 'h2Pct', 'h3Pct', 'h4Pct', 'h5Pct', 'floorPct'] as const;

function merged(first: number[], second: number[]): number[] {
  const all = [...first, ...second].sort((a, b) => a - b);
  return all.filter((f, index) => index === 0 || f > all[index - 1] * (1 + sameShare));
}

/**
 * The response and the distortion of a reading as comma-separated values (RFC 4180, line feeds), null as an empty cell.
 *
 * Several stimuli add a level column each, named by place, side and level; a reading without a response gives the header
 * alone.
 */
export function readingCsv(reading: Reading): string {
  const none = { fHz: [], levelDb: [], phaseDeg: [], valid: [], levelSigmaDb: [] };
  const response = reading.response ?? none;
  const distortion: Partial<Distortion> & { fHz: number[] } = reading.distortion ?? { fHz: [] };
  const stimuli = (reading.stimuli ?? []).length > 1 ? (reading.stimuli ?? []) : [];
  const fHz = merged(response.fHz, distortion.fHz);
  const inResponse = sameFrequencies(fHz, response.fHz);
  const inDistortion = sameFrequencies(fHz, distortion.fHz);
  const inStimuli = stimuli.map((stimulus) => sameFrequencies(fHz, stimulus.response?.fHz ?? []));
  const header = [
    ...['fHz', 'levelDb', 'phaseDeg', 'valid', 'levelSigmaDb', ...distortionColumns, 'distortionValid'],
    ...stimuli.map(({ side, levelDbfs }, index) => `levelDb ${index + 1} ${side} ${levelDbfs} dBFS`),
  ];
  const lines = fHz.map((f, row) =>
    [
      f,
      response.levelDb[inResponse[row]],
      response.phaseDeg[inResponse[row]],
      response.valid[inResponse[row]],
      response.levelSigmaDb[inResponse[row]],
      ...distortionColumns.map((column) => distortion[column]?.[inDistortion[row]]),
      distortion.valid?.[inDistortion[row]],
      ...stimuli.map((stimulus, index) => stimulus.response?.levelDb[inStimuli[index][row]]),
    ]
      .map(cell)
      .join(','),
  );
  return `${[header.join(','), ...lines].join('\n')}\n`;
}
