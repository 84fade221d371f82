// A printed page as SVG: 1 mm in the drawing is 1 mm on paper.
import type { Mark, PrintedPage } from './marks.ts';

const entities: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };
const escaped = (text: string) => text.replaceAll(/[&<>"']/g, (sign) => entities[sign]);

/** To a micrometre. */
const mm = (value: number) => String(Number(value.toFixed(3)));

const fonts = "'DejaVu Sans Condensed','DejaVu Sans','Encode Sans',Verdana,sans-serif";

function markSvg(mark: Mark): string {
  if (mark.kind === 'rect') {
    const { x, y, width, height, paint } = mark;
    const style = paint === 'ink' ? 'class="ink"' : 'class="cut"';
    return `<rect ${style} x="${mm(x)}" y="${mm(y)}" width="${mm(width)}" height="${mm(height)}"/>`;
  }
  if (mark.text === '') return '';
  const { x, baseline, sizeMm, widthMm, text, bold } = mark;
  const weight = bold ? ' font-weight="bold"' : '';
  const fixed = `textLength="${mm(widthMm)}" lengthAdjust="spacingAndGlyphs"`;
  return `<text x="${mm(x)}" y="${mm(baseline)}" font-size="${mm(sizeMm)}" ${fixed}${weight}>${escaped(text)}</text>`;
}

/** The page as the text of an SVG file; `title` is read out where the drawing is not seen. */
export function pageSvg({ widthMm, heightMm, marks }: PrintedPage, title: string): string {
  const size = `width="${mm(widthMm)}mm" height="${mm(heightMm)}mm" viewBox="0 0 ${mm(widthMm)} ${mm(heightMm)}"`;
  const style = `.ink{fill:#000;shape-rendering:crispEdges}.cut{fill:none;stroke:#777;stroke-width:.1}text{font-family:${fonts};font-stretch:condensed;fill:#000}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} role="img">`,
    `<title>${escaped(title)}</title>`,
    `<style>${style}</style>`,
    ...marks.map(markSvg).filter((line) => line !== ''),
    '</svg>',
    '',
  ].join('\n');
}
