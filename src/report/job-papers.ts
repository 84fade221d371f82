// What of a job is printed: labels, lead list, fuse chart, each as its pages and their title.
import { failure, type Result, success } from '../base/result.ts';
import { type FuseRow, fuseChart } from '../job/fuses/fuse-chart.ts';
import { type LeadMeasurements, type LeadRow, leadList } from '../job/leads/lead-list.ts';
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

/** The job that a paper is of; a plan alone is of none. */
export type PaperJob = { id: string; number: string | null; name: string } | null;

export interface Paper {
  pages: PrintedPage[];
  title: string;
}

/** A job as it is called on paper. */
const aboutJob = (job: PaperJob) => (job === null ? '' : [job.number, job.name].filter(Boolean).join(', '));

export const leadPaper = (rows: readonly LeadRow[], job: PaperJob): Paper => ({
  pages: tablePages(leadTable(rows, aboutJob(job))),
  title: 'Leads',
});

export const fusePaper = (rows: readonly FuseRow[], job: PaperJob): Paper => ({
  pages: tablePages(fuseTable(rows, aboutJob(job))),
  title: 'Fuses',
});

export interface LabelWish {
  job: PaperJob;
  stock: Stock;
  /** Where the app answers, without a last stroke. */
  address: string;
  /** A strip of labels is one picture, and a page each in a PDF. */
  format: 'pdf' | 'svg';
}

export interface LabelPaper extends Paper {
  labels: number;
  /** The smallest square of a code; null without labels. */
  moduleMm: number | null;
  /** What the code of each lead says. */
  scans: { lead: string; text: string }[];
}

/** Two labels for each lead. A plan alone belongs to no job that could be opened, so its codes say the lead's number. */
export function labelPaper(rows: readonly LeadRow[], { job, stock, address, format }: LabelWish): LabelPaper {
  const scanOf = (lead: string) =>
    job === null ? lead : `${address}/jobs/${encodeURIComponent(job.id)}/leads/${encodeURIComponent(lead)}`;
  const labels = leadLabels(rows, scanOf);
  const { pages, moduleMm } = labelPages(labels, stock);
  return {
    pages: stock.kind === 'roll' && format === 'svg' ? [stripOf(pages, stock)] : pages,
    title: ['Lead labels', aboutJob(job)].filter(Boolean).join(', '),
    labels: labels.length,
    moduleMm,
    scans: rows.map(({ id }) => ({ lead: id, text: scanOf(id) })),
  };
}

export interface PaperWish extends Omit<LabelWish, 'stock'> {
  plan: Plan;
  /** What is known of readings beside the plan. */
  measurements: LeadMeasurements;
  /** Of labels: sheets to cut, or a roll. */
  stock: Stock['kind'];
}

/** A plan that has nothing of the kind yet is `nothing-to-print`. */
function nothing(message: string): Result<Paper> {
  return failure({ code: 'nothing-to-print', message, mend: 'Plan it first, or start from a template.' });
}

/** The pages of one paper, as the commands of the same names print them. */
export function jobPaper(paper: JobPaper, { plan, measurements, ...wish }: PaperWish): Result<Paper> {
  if (paper === 'fuses') {
    const rows = fuseChart(plan);
    return rows.length === 0 ? nothing('The plan has no runs yet.') : success(fusePaper(rows, wish.job));
  }
  const rows = leadList(plan, measurements);
  if (rows.length === 0) return nothing('The plan has no leads yet.');
  if (paper === 'leads') return success(leadPaper(rows, wish.job));
  const stock = stockOf({ ...defaultStock, kind: wish.stock });
  return stock.ok ? success(labelPaper(rows, { ...wish, stock: stock.value })) : stock;
}
