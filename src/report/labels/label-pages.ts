// Labels on their stock: sheets with cut marks, a page a label for a label printer, or one long strip.
import type { Mark, PrintedPage } from '../print/marks.ts';
import { textWidthMm } from '../print/text-width.ts';
import { type LeadLabel, labelMarks } from './lead-label.ts';
import { gridOf, type Stock, sheetMm } from './stock.ts';

export interface LabelPages {
  pages: PrintedPage[];
  /** The smallest module of all codes; null without labels. */
  moduleMm: number | null;
}

const RULER_MM = 100;

/** A line that tells whether a printer kept the size; only where the margin has room for it. */
function ruler({ marginMm }: Stock): Mark[] {
  if (marginMm < 8) return [];
  const y = sheetMm.height - marginMm + 2;
  const rect = (x: number, width: number, height: number): Mark => ({
    ...{ kind: 'rect', paint: 'ink', x, width, height },
    y: y - height / 2,
  });
  const text = 'Print at 100 %: this line is 100 mm long.';
  const sizeMm = 2.2;
  return [
    rect(marginMm, RULER_MM, 0.2),
    rect(marginMm, 0.2, 2),
    rect(marginMm + RULER_MM - 0.2, 0.2, 2),
    {
      kind: 'text',
      x: marginMm,
      baseline: y + 3.4,
      sizeMm,
      widthMm: textWidthMm(text, sizeMm),
      text,
      bold: false,
    },
  ];
}

function sheets(labels: readonly LeadLabel[], stock: Stock): LabelPages {
  const { widthMm, heightMm, gapMm, marginMm } = stock;
  const { columns, rows } = gridOf(stock);
  const each = columns * rows;
  const pages: PrintedPage[] = [];
  let moduleMm = Number.POSITIVE_INFINITY;
  for (let first = 0; first < labels.length; first += each) {
    const marks: Mark[] = ruler(stock);
    labels.slice(first, first + each).forEach((label, n) => {
      const x = marginMm + (n % columns) * (widthMm + gapMm);
      const y = marginMm + Math.floor(n / columns) * (heightMm + gapMm);
      const drawn = labelMarks(label, stock, { x, y });
      moduleMm = Math.min(moduleMm, drawn.moduleMm);
      marks.push({ kind: 'rect', paint: 'cut', x, y, width: widthMm, height: heightMm }, ...drawn.marks);
    });
    pages.push({ widthMm: sheetMm.width, heightMm: sheetMm.height, marks });
  }
  return { pages, moduleMm: labels.length === 0 ? null : moduleMm };
}

/** A page of the label's own size for each: what a label printer feeds on. */
function singles(labels: readonly LeadLabel[], { widthMm, heightMm }: Stock): LabelPages {
  const drawn = labels.map((label) => labelMarks(label, { widthMm, heightMm }, { x: 0, y: 0 }));
  return {
    pages: drawn.map(({ marks }) => ({ widthMm, heightMm, marks })),
    moduleMm: drawn.length === 0 ? null : Math.min(...drawn.map(({ moduleMm }) => moduleMm)),
  };
}

/** Labels as pages, in their order. */
export function labelPages(labels: readonly LeadLabel[], stock: Stock): LabelPages {
  return stock.kind === 'sheet' ? sheets(labels, stock) : singles(labels, stock);
}

/** Pages of a roll as one strip, one below the other, cut between them. */
export function stripOf(pages: readonly PrintedPage[], { widthMm, heightMm, gapMm }: Stock): PrintedPage {
  const marks = pages.flatMap((page, n): Mark[] => {
    const down = n * (heightMm + gapMm);
    const cut: Mark = { kind: 'rect', paint: 'cut', x: 0, y: down, width: widthMm, height: heightMm };
    const moved = page.marks.map(
      (mark): Mark =>
        mark.kind === 'text' ? { ...mark, baseline: mark.baseline + down } : { ...mark, y: mark.y + down },
    );
    return [cut, ...moved];
  });
  return { widthMm, heightMm: Math.max(heightMm, pages.length * (heightMm + gapMm) - gapMm), marks };
}
