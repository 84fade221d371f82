// Printed pages into files: one PDF, or an SVG for each page.
import { failure, type Result, success } from '../../base/result.ts';
import type { Paper } from '../../report/job-papers.ts';
import { pageSvg } from '../../report/print/page-svg.ts';
import { writeWholeFile } from '../write-file.ts';

/** What the ending of `--out` asks for. */
export function pageFormat(path: string | undefined): Result<'pdf' | 'svg'> {
  const ending = /\.(pdf|svg)$/i.exec(path ?? '')?.[1].toLowerCase();
  if (ending === 'pdf' || ending === 'svg') return success(ending);
  const code = path === undefined ? 'option-missing' : 'bad-option-value';
  const message = path === undefined ? 'Where is it to go?' : '--out must end with .pdf or .svg.';
  return failure({ code, message, where: '--out', mend: 'Give --out F.pdf, or F.svg.' });
}

/** `F.svg`, then `F-2.svg`. */
const pagePath = (path: string, n: number) => (n === 0 ? path : `${path.slice(0, -4)}-${n + 1}${path.slice(-4)}`);

/** Writes the pages in the format of `path` and says which files they are in. */
export async function writePages(path: string, { pages, title }: Paper): Promise<Result<string[]>> {
  const format = pageFormat(path);
  if (!format.ok) return format;
  if (format.value === 'pdf') {
    // Loaded here, because nothing else needs it.
    const { pagesPdf } = await import('../../store/print/page-pdf.ts');
    const written = writeWholeFile(path, await pagesPdf(pages, title));
    return written.ok ? success([path]) : written;
  }
  const paths: string[] = [];
  for (const [n, page] of pages.entries()) {
    const written = writeWholeFile(pagePath(path, n), pageSvg(page, title));
    if (!written.ok) return written;
    paths.push(pagePath(path, n));
  }
  return success(paths);
}
