// Hands out what is printed of a job.
import { holdPointsOf } from '../../job/hold-points/hold-points.ts';
import { leadProofs } from '../../job/hold-points/lead-proofs.ts';
import { jobPaper } from '../../report/job-papers.ts';
import { pageSvg } from '../../report/print/page-svg.ts';
import { jobView } from '../../store/job-views.ts';
import { badNews } from '../answers.ts';
import type { ApiHandlers } from '../api.ts';
import type { ServerParts } from '../context.ts';

export function paperHandlers({ workshop }: ServerParts): Pick<ApiHandlers, 'printPaper'> {
  return {
    async printPaper(context) {
      const { job: id, paper } = context.req.valid('param');
      const { format, sheet, stock, address } = context.req.valid('query');
      const view = await jobView(workshop, id);
      if (view === null) {
        const mend = 'Choose one from the list of jobs.';
        return badNews(context, [{ code: 'job-unknown', message: 'There is no such job.', where: id, mend }], 404);
      }
      const { plan, number, name } = view.job;
      const made = jobPaper(paper, {
        plan: plan.parts,
        measurements: {
          stale: plan.stale.map(({ reading }) => reading),
          proofs: leadProofs(holdPointsOf(view.job)),
        },
        job: { id, number: number ?? null, name },
        stock,
        address: address.replace(/\/+$/, ''),
        format,
      });
      if (!made.ok) return badNews(context, made.issues, 409);
      const { pages, title } = made.value;
      const page = pages[sheet - 1];
      if (page === undefined) {
        const message = `There is no sheet ${sheet}.`;
        const mend = `Ask for 1 to ${pages.length}.`;
        return badNews(context, [{ code: 'sheet-unknown', message, where: 'sheet', mend }], 404);
      }
      const headers = { 'kickpanel-sheets': String(pages.length), 'cache-control': 'no-store' };
      if (format === 'svg') {
        return new Response(pageSvg(page, title), { headers: { ...headers, 'content-type': 'image/svg+xml' } });
      }
      // Loaded here, because nothing else needs it.
      const { pagesPdf } = await import('../../store/print/page-pdf.ts');
      const bytes = (await pagesPdf(pages, title)) as Uint8Array<ArrayBuffer>;
      return new Response(bytes, { headers: { ...headers, 'content-type': 'application/pdf' } });
    },
  };
}
