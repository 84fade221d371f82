// What the doors show of jobs: one as it stands, and a line about each.
import type { Head } from '../job/chain.ts';
import type { PersonalKind } from '../job/entry-kinds.ts';
import type { JobState } from '../job/projections/job-state.ts';
import { type JobSummary, jobSummarySchema, summaryOf } from '../job/projections/job-summary.ts';
import { type Wait, waitsOf } from '../job/projections/waits.ts';
import type { Workshop } from './workshop.ts';

export interface JobView {
  job: JobState;
  waits: Wait[];
  /** What is known of the person; a null value was erased or is not kept here. */
  personal: Partial<Record<PersonalKind, { record: string; value: string | null }>>;
  head: Head;
}

/** The job as its entries make it, or null where there is no such job. */
export async function jobView(workshop: Workshop, job: string): Promise<JobView | null> {
  const { head, journal } = await workshop.load(job);
  if (head.entries === 0) return null;
  const { state } = journal;
  const records = new Map((await workshop.journals.personalRecords(job)).map((record) => [record.id, record]));
  const personal: JobView['personal'] = {};
  for (const [kind, { record }] of Object.entries(state.personal)) {
    personal[kind as PersonalKind] = { record, value: records.get(record)?.value ?? null };
  }
  return { job: state, waits: waitsOf(state), personal, head };
}

/** Changes when a summary of the same journal would say something else than before. */
const summaryView = 'summary-1';

async function keptSummary({ journals }: Workshop, job: string, hash: string): Promise<JobSummary | null> {
  const body = await journals.keptView(job, summaryView, hash);
  if (body === null) return null;
  try {
    return jobSummarySchema.parse(JSON.parse(body));
  } catch {
    return null;
  }
}

/** A line about every job, the one changed last first. A line is kept until its job changes. */
export async function jobSummaries(workshop: Workshop): Promise<JobSummary[]> {
  const summaries: JobSummary[] = [];
  for (const [job, { hash }] of await workshop.journals.heads()) {
    let summary = await keptSummary(workshop, job, hash);
    if (summary === null) {
      summary = summaryOf((await workshop.load(job)).journal.state);
      // A view that cannot be kept is computed again next time; the list does not fail for it.
      await workshop.journals.keepView(job, summaryView, hash, JSON.stringify(summary)).catch(() => {});
    }
    if (summary.purpose === 'car') summaries.push(summary);
  }
  const last = (summary: JobSummary) => summary.changedWhen ?? '';
  return summaries.sort((a, b) => (last(a) < last(b) ? 1 : last(a) > last(b) ? -1 : a.id < b.id ? -1 : 1));
}
