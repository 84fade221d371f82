// What of a job is printed: labels, lead list, fuse chart, each as its pages and their title.
import { failure, type Result, success } from '../base/result.ts';
import { fuseChart } from '../job/fuses/fuse-chart.ts';
import { type LeadMeasurements, leadList } from '../job/leads/lead-list.ts';
import type { Plan } from '../plan/plan.ts';
import { labelPages, stripOf } from './labels/label-pages.ts';
import { leadLabels } from './labels/lead-label.ts';
import { defaultStock, type Stock, stockOf } from './labels/stock.ts';
import type { PrintedPage } from './print/marks.ts';
import { fuseTable } from './tables/fuse-table.ts';
import { leadTable } from './tables/lead-table.ts';
import { tablePages } from './tables/table-pages.ts';

export const jobPapers = ['labels', 'leads', 'fuses'] as const;

export type JobPaper = (typeof jobPapers)[number];

export interface PaperWish {
  plan: Plan;
  /** What is known of readings beside the plan. */
  measurements: LeadMeasurements;
  job: { id: string; number: string | null; name: string };
  /** Of labels: sheets to cut, or a roll. */
  stock: Stock['kind'];
  /** Of labels: where the app answers, without a last stroke; the code on a label opens its lead there. */
  address: string;
  /** A strip of labels is one picture, and a page each in a PDF. */
  format: 'pdf' | 'svg';
}

export interface Paper {
  pages: PrintedPage[];
  title: string;
}

/** A plan that has nothing of the kind yet is `nothing-to-print`. */
function nothing(message: string): Result<Paper> {
  return failure({ code: 'nothing-to-print', message, mend: 'Plan it first, or start from a template.' });
}

/** The pages of one paper, as the commands of the same names print them. */
export function jobPaper(paper: JobPaper, wish: PaperWish): Result<Paper> {
  const { plan, job, format } = wish;
  const about = [job.number, job.name].filter(Boolean).join(', ');
  if (paper === 'fuses') {
    const rows = fuseChart(plan);
    if (rows.length === 0) return nothing('The plan has no runs yet.');
    return success({ pages: tablePages(fuseTable(rows, about)), title: 'Fuses' });
  }
  const rows = leadList(plan, wish.measurements);
  if (rows.length === 0) return nothing('The plan has no leads yet.');
  if (paper === 'leads') return success({ pages: tablePages(leadTable(rows, about)), title: 'Leads' });
  const stock = stockOf({ ...defaultStock, kind: wish.stock });
  if (!stock.ok) return stock;
  const scanOf = (lead: string) =>
    `${wish.address}/jobs/${encodeURIComponent(job.id)}/leads/${encodeURIComponent(lead)}`;
  const { pages } = labelPages(leadLabels(rows, scanOf), stock.value);
  const strip = wish.stock === 'roll' && format === 'svg';
  const title = ['Lead labels', about].filter(Boolean).join(', ');
  return success({ pages: strip ? [stripOf(pages, stock.value)] : pages, title });
}
