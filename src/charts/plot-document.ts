// A plot as a whole SVG document for a report or a file: with its sentence, its state, and nothing it must fetch.
import { paperPalette } from './palette.ts';
import { type PlotSize, plotElements } from './plot.ts';
import type { PlotSpec } from './plot-spec.ts';
import { escaped, px } from './svg-text.ts';

export const documentFonts = "'Encode Sans Variable', 'Encode Sans', 'Noto Sans', Arial, sans-serif";
const headPx = 56;
const footPx = 34;

/** Lines of at most `letters` letters, broken between words. */
function wrapped(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length + 1 <= letters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/**
 * The document as SVG text.
 *
 * @param size of the whole document, px
 * @returns text with no reference to anything outside it; the same spec gives the same text
 * @throws RangeError a size that leaves no room: the caller's mistake
 */
export function plotDocument(spec: PlotSpec, size: PlotSize): string {
  const { widthPx, heightPx } = size;
  const { card, ink, quiet } = paperPalette;
  const sentence = wrapped(spec.sentence, Math.floor((widthPx - 48) / 9.2));
  const extra = (sentence.length - 1) * 24;
  const plot = plotElements(
    spec,
    { widthPx: widthPx - 24, heightPx: heightPx - headPx - footPx - extra },
    paperPalette,
  );
  const about = escaped(`${spec.sentence} ${spec.state}`);
  const title = sentence.map((line, n) => `<text x="24" y="${36 + 24 * n}" font-size="19">${escaped(line)}</text>`);
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${px(widthPx)} ${px(heightPx)}" width="${px(widthPx)}" height="${px(heightPx)}" role="img" aria-label="${about}" font-family="${documentFonts}" fill="${ink}">`,
    `<title>${about}</title>`,
    `<rect width="${px(widthPx)}" height="${px(heightPx)}" rx="6" fill="${card}"/>`,
    ...title,
    `<g transform="translate(12 ${headPx + extra})">${plot}</g>`,
    `<text x="24" y="${px(heightPx - 12)}" font-size="13" fill="${quiet}">${escaped(spec.state)}</text>`,
    '</svg>',
  ].join('\n')}\n`;
}
