// How wide text is in print, and how it is made to fit.

/** Advance widths of the signs from space to tilde in thousandths of the size. Source: hmtx of DejaVu Sans Condensed 2.37. */
const plain =
  '286 360 414 754 572 855 702 247 351 351 450 754 286 325 286 303 572 572 572 572 572 572 572 572 572 572 303 303 754 754 754 478 900 615 617 628 693 568 518 697 677 265 265 590 501 776 673 708 542 708 625 571 549 659 615 890 616 549 616 351 303 351 754 450 450 551 571 495 571 554 316 571 570 250 250 521 250 876 570 550 571 571 370 469 353 570 532 736 532 532 472 572 303 572 754'
    .split(' ')
    .map(Number);
const bold =
  '313 410 469 754 626 901 785 275 411 411 470 754 342 374 342 329 626 626 626 626 626 626 626 626 626 626 360 360 754 754 754 522 900 696 686 660 747 615 615 738 753 334 334 697 573 896 753 765 659 765 693 648 614 730 696 993 694 651 652 411 329 411 754 450 450 607 644 533 644 610 391 644 641 308 308 598 308 938 641 618 644 644 444 536 430 641 586 831 580 586 523 641 329 641 754'
    .split(' ')
    .map(Number);

/** Of a sign outside that table: letters of other alphabets, and the wide signs of the far east and of pictures. */
const otherWidth = 680;
const wideWidth = 1000;
const wideFrom = 0x1100;

/** Width of one line, mm, at a size in mm. */
export function textWidthMm(text: string, sizeMm: number, isBold = false): number {
  let sum = 0;
  for (const sign of text) {
    const code = sign.codePointAt(0) ?? 0;
    sum += (isBold ? bold : plain)[code - 0x20] ?? (code >= wideFrom && code !== 0x2026 ? wideWidth : otherWidth);
  }
  return (sum * sizeMm) / 1000;
}

/** Text without what no printer has a sign for: controls, halves of signs, unassigned codes. */
export function printable(text: string): string {
  return text.replaceAll(/\p{C}/gu, ' ').replaceAll(/\s+/g, ' ').trim();
}

/** Letters may be set this much narrower than they are drawn. */
const narrowest = 0.8;

/** As much of `text` as fits, with an ellipsis where something is left out. */
function cut(text: string, sizeMm: number, widthMm: number, isBold: boolean): string {
  const signs = [...text];
  while (signs.length > 0 && narrowest * textWidthMm(`${signs.join('')}…`, sizeMm, isBold) > widthMm) signs.pop();
  return `${signs.join('').trimEnd()}…`;
}

/** The lines of `text` at a size, broken between words; null where a word or the number of lines is too much. */
function broken(text: string, sizeMm: number, widthMm: number, linesMax: number, isBold: boolean): string[] | null {
  const fits = (line: string) => narrowest * textWidthMm(line, sizeMm, isBold) <= widthMm;
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && fits(`${last} ${word}`)) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.length <= linesMax && lines.every(fits) ? lines : null;
}

export interface Paragraph {
  text: string;
  bold?: boolean;
}

export interface FittedText {
  sizeMm: number;
  lines: { text: string; widthMm: number; bold: boolean }[];
}

/** From line to line, in sizes. */
export const LEADING = 1.2;
const STEP_MM = 0.05;

/**
 * Paragraphs at the largest size from `mostMm` down to `leastMm` at which they fit into a field, two lines each at most. Where
 * even the least is too large they get one line each and are cut. No line is wider than the field.
 */
export function fittedText(
  paragraphs: readonly Paragraph[],
  field: { widthMm: number; heightMm: number },
  size: { mostMm: number; leastMm: number },
): FittedText {
  const { widthMm, heightMm } = field;
  const ready = paragraphs.map(({ text, bold: isBold = false }) => ({ text: printable(text), bold: isBold }));
  const measured = (text: string, isBold: boolean, sizeMm: number) => ({
    text,
    bold: isBold,
    widthMm: Math.min(widthMm, textWidthMm(text, sizeMm, isBold)),
  });
  for (let sizeMm = size.mostMm; sizeMm >= size.leastMm; sizeMm -= STEP_MM) {
    const set = ready.map(({ text, bold: isBold }) => broken(text, sizeMm, widthMm, 2, isBold));
    const lines = set.reduce((sum, found) => sum + (found?.length ?? 0), 0);
    if (set.includes(null) || lines * LEADING * sizeMm > heightMm) continue;
    return {
      sizeMm,
      lines: set.flatMap((found, n) => (found ?? []).map((text) => measured(text, ready[n].bold, sizeMm))),
    };
  }
  const sizeMm = Math.min(size.leastMm, heightMm / (LEADING * Math.max(1, ready.length)));
  const lines = ready.map(({ text, bold: isBold }) => {
    const whole = narrowest * textWidthMm(text, sizeMm, isBold) <= widthMm;
    return measured(whole ? text : cut(text, sizeMm, widthMm, isBold), isBold, sizeMm);
  });
  return { sizeMm, lines };
}
