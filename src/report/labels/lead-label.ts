// One lead label: a code to scan, the lead's number large, which end this is, the other end, and the colour.
import { encode } from 'uqr';
import type { LeadRow } from '../../job/leads/lead-list.ts';
import type { Mark } from '../print/marks.ts';
import { fittedText, LEADING, textWidthMm } from '../print/text-width.ts';
import { codeSideMaxMm } from './stock.ts';

/** What one end of a lead carries. */
export interface LeadLabel {
  lead: string;
  here: string;
  there: string;
  colour: string | null;
  /** What the code says when it is scanned. */
  scan: string;
}

/** Two labels for each lead, one for each end, saying which end that is. */
export function leadLabels(rows: readonly LeadRow[], scanOf: (lead: string) => string): LeadLabel[] {
  return rows.flatMap(({ id: lead, from, to, colour }) => {
    const [first, second] = [from?.label ?? 'not planned', to?.label ?? 'not planned'];
    const scan = scanOf(lead);
    return [
      { lead, here: first, there: second, colour, scan },
      { lead, here: second, there: first, colour, scan },
    ];
  });
}

/** White around a code, in modules. Source: ISO/IEC 18004. */
const QUIET = 4;
/** Below this a telephone may not tell the modules apart. */
export const moduleLeastMm = 0.25;

const PAD_MM = 0.8;
/** Share of the height that the lead's number takes. */
const NUMBER_SHARE = 0.34;
/** Share of it between the number and the words. */
const AIR_SHARE = 0.05;
/** Height of capitals over the size of the font. Source: DejaVu Sans, 1493 of 2048 units. */
const CAPITALS = 0.729;
/** What hangs below the line, and the air of the line that is above it. */
const DESCENT = 0.24;

function codeMarks(rows: readonly (readonly boolean[])[], x: number, y: number, moduleMm: number): Mark[] {
  return rows.flatMap((row, n) => {
    const marks: Mark[] = [];
    for (let from = 0; from < row.length; from++) {
      if (!row[from]) continue;
      const start = from;
      while (row[from + 1]) from++;
      const width = (from + 1 - start) * moduleMm;
      marks.push({ kind: 'rect', paint: 'ink', x: x + start * moduleMm, y: y + n * moduleMm, width, height: moduleMm });
    }
    return marks;
  });
}

/**
 * A label drawn with its top left corner at `at`. Nothing of it leaves the label.
 *
 * @param size  mm; wide enough for the code and a name beside it (`stockOf`)
 * @returns the marks, and how large one module of the code is
 * Source of the code: ISO/IEC 18004, error correction M: a smudge over a seventh of it does no harm.
 */
export function labelMarks(
  label: LeadLabel,
  size: { widthMm: number; heightMm: number },
  at: { x: number; y: number },
): { marks: Mark[]; moduleMm: number } {
  const { widthMm, heightMm } = size;
  const { data } = encode(label.scan, { ecc: 'M', border: 0, boostEcc: true });
  const sideMm = Math.min(heightMm, codeSideMaxMm);
  const moduleMm = sideMm / (data.length + 2 * QUIET);
  const quietMm = QUIET * moduleMm;
  const top = at.y + (heightMm - sideMm) / 2;
  const x = at.x + sideMm;
  const field = { widthMm: widthMm - sideMm - PAD_MM, heightMm: heightMm - 2 * PAD_MM };
  // Capitals reach the top of their share, so the number may be larger than the share by what stands above capitals.
  const numberHigh = NUMBER_SHARE * field.heightMm;
  const air = AIR_SHARE * field.heightMm;
  const numberWide = textWidthMm(label.lead, 1, true);
  const numberMm = Math.min(numberHigh / CAPITALS, field.widthMm / numberWide);
  const lines = [
    { text: `here ${label.here}`, bold: true },
    { text: `to ${label.there}` },
    ...(label.colour === null ? [] : [{ text: label.colour }]),
  ];
  const rest = { widthMm: field.widthMm, heightMm: field.heightMm - numberHigh - air };
  const fitted = fittedText(lines, rest, { mostMm: 0.22 * field.heightMm, leastMm: Math.min(1.1, 0.1 * heightMm) });
  const below = at.y + PAD_MM + numberHigh;
  const pitch = LEADING * fitted.sizeMm;
  return {
    moduleMm,
    marks: [
      ...codeMarks(data, at.x + quietMm, top + quietMm, moduleMm),
      {
        kind: 'text',
        x,
        baseline: below,
        sizeMm: numberMm,
        widthMm: numberMm * numberWide,
        text: label.lead,
        bold: true,
      },
      ...fitted.lines.map(
        (line, n): Mark => ({
          kind: 'text',
          x,
          baseline: below + air + (n + 1) * pitch - DESCENT * fitted.sizeMm,
          sizeMm: fitted.sizeMm,
          ...line,
        }),
      ),
    ],
  };
}
