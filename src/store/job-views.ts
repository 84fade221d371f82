// What the doors show of jobs: one as it stands, and a line about each.
import { version } from '../../package.json';
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

/**
 * What a kept view depends on: the journal, by the hash it ends with, and the code, by the name of the built file that this
 * is part of, which the build makes from its content and from all that it imports.
 */
const keyOf = (head: Head) => `${head.hash} ${version} ${import.meta.url.split('/').at(-1)}`;

/** A view from what is kept, else made now and kept. A view that cannot be kept or read is no failure. */
async function view<Value extends object>(
  { journals }: Workshop,
  [job, name, head]: [job: string, name: string, head: Head],
  fits: (value: Value) => boolean,
  make: () => Promise<Value>,
): Promise<Value> {
  const kept = await journals.keptView(job, name, keyOf(head));
  if (kept !== null) {
    try {
      const value = JSON.parse(kept) as Value;
      if (fits(value)) return value;
    } catch {
      // Made anew below.
    }
  }
  const made = await make();
  await journals.keepView(job, name, keyOf(head), JSON.stringify(made)).catch(() => {});
  return made;
}

/** The state of a job; a long one is quicker read than made of its entries again. */
async function stateOf(workshop: Workshop, job: string, head: Head): Promise<JobState> {
  const held = workshop.held(job, head);
  if (held !== null) return held.journal.state;
  return view<JobState>(
    workshop,
    [job, 'state', head],
    (state) => state.id === job && state.entries === head.entries,
    async () => (await workshop.load(job)).journal.state,
  );
}

/** The job as its entries make it, or null where there is no such job. */
export async function jobView(workshop: Workshop, job: string): Promise<JobView | null> {
  const head = await workshop.journals.head(job);
  if (head.entries === 0) return null;
  const state = await stateOf(workshop, job, head);
  const records = new Map((await workshop.journals.personalRecords(job)).map((record) => [record.id, record]));
  const personal: JobView['personal'] = {};
  for (const [kind, { record }] of Object.entries(state.personal)) {
    personal[kind as PersonalKind] = { record, value: records.get(record)?.value ?? null };
  }
  return { job: state, waits: waitsOf(state), personal, head };
}

/** A line about every job, the one changed last first. */
export async function jobSummaries(workshop: Workshop): Promise<JobSummary[]> {
  const summaries: JobSummary[] = [];
  for (const [job, head] of await workshop.journals.heads()) {
    const summary = await view<JobSummary>(
      workshop,
      [job, 'summary', head],
      (value) => jobSummarySchema.safeParse(value).success && value.id === job,
      async () => summaryOf(await stateOf(workshop, job, head)),
    );
    if (summary.purpose === 'car') summaries.push(summary);
  }
  const last = (summary: JobSummary) => summary.changedWhen ?? '';
  return summaries.sort((a, b) => (last(a) < last(b) ? 1 : last(a) > last(b) ? -1 : a.id < b.id ? -1 : 1));
}

/** Keeps the state of every job that is in memory, so that the next start opens it quickly. */
export async function keepStates(workshop: Workshop): Promise<void> {
  for (const [job, head] of await workshop.journals.heads()) {
    const held = workshop.held(job, head);
    if (held === null || (await workshop.journals.keptView(job, 'state', keyOf(head))) !== null) continue;
    await workshop.journals.keepView(job, 'state', keyOf(head), JSON.stringify(held.journal.state));
  }
}

/** Whether the views that are kept of a job are those that its journal makes. */
export async function viewsHold({ journals }: Workshop, job: string, head: Head, state: JobState): Promise<boolean> {
  const made = { state, summary: summaryOf(state) };
  for (const name of ['state', 'summary'] as const) {
    const kept = await journals.keptView(job, name, keyOf(head));
    if (kept !== null && kept !== JSON.stringify(made[name])) return false;
  }
  return true;
}
