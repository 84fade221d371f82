// Printed pages as a PDF: 72 points to the inch, the font inside, the same bytes for the same pages.
import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';
import type { Mark, PrintedPage } from '../../report/print/marks.ts';

const POINTS_PER_MM = 72 / 25.4;
const resolve = createRequire(import.meta.url).resolve;
const plainFont = () => resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf');
const boldFont = () => resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf');

function draw(document: PDFKit.PDFDocument, mark: Mark): void {
  if (mark.kind === 'rect') {
    const { x, y, width, height } = mark;
    const at = [x, y, width, height].map((value) => value * POINTS_PER_MM) as [number, number, number, number];
    document.rect(...at);
    if (mark.paint === 'ink') document.fill('black');
    else document.lineWidth(0.1 * POINTS_PER_MM).stroke('#777777');
    return;
  }
  if (mark.text === '') return;
  document.font(mark.bold ? 'bold' : 'plain').fontSize(mark.sizeMm * POINTS_PER_MM);
  const naturalPoints = document.widthOfString(mark.text);
  const horizontalScaling = naturalPoints > 0 ? (100 * mark.widthMm * POINTS_PER_MM) / naturalPoints : 100;
  const options = { lineBreak: false, baseline: 'alphabetic' as const, horizontalScaling };
  document.fillColor('black').text(mark.text, mark.x * POINTS_PER_MM, mark.baseline * POINTS_PER_MM, options);
}

/**
 * The pages as the bytes of a PDF.
 *
 * It carries no date: the same pages give the same file.
 */
export function pagesPdf(pages: readonly PrintedPage[], title: string): Promise<Uint8Array> {
  return new Promise((done, fail) => {
    const info = { Title: title, Creator: 'Kickpanel', Producer: 'Kickpanel', CreationDate: new Date(0) };
    const document = new PDFDocument({
      ...{
        autoFirstPage: false,
        pdfVersion: '1.3',
        margin: 0,
        font: plainFont(),
        lang: 'en',
        info,
        displayTitle: true,
      },
    });
    const parts: Uint8Array[] = [];
    document.on('data', (part: Uint8Array) => parts.push(part));
    document.on('error', fail);
    document.on('end', () => done(Buffer.concat(parts)));
    // The library wants a date of its own; one that is not listed is not written.
    Object.defineProperty(document.info, 'CreationDate', { value: new Date(0), enumerable: false });
    document.registerFont('plain', plainFont()).registerFont('bold', boldFont());
    for (const { widthMm, heightMm, marks } of pages) {
      document.addPage({ size: [widthMm * POINTS_PER_MM, heightMm * POINTS_PER_MM], margin: 0 });
      for (const mark of marks) draw(document, mark);
    }
    document.end();
  });
}
