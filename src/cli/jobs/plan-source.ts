// A plan for a command that looks at one: that of a job, or one in a file, with the job that it is of where there is one.
import { type Result, success } from '../../base/result.ts';
import { holdPointsOf } from '../../job/hold-points/hold-points.ts';
import { leadProofs } from '../../job/hold-points/lead-proofs.ts';
import type { Plan } from '../../plan/plan.ts';
import type { PaperJob } from '../../report/job-papers.ts';
import { jobView } from '../../store/job-views.ts';
import type { CommandContext } from '../command.ts';
import { type JobCall, jobNamed } from './job-call.ts';
import { readPlanFile } from './plan-file.ts';

export interface SourcePlan {
  plan: Plan;
  /** Readings that no longer count. */
  stale: string[];
  /** What proved that a lead is connected as labelled, by its id. */
  proofs: ReadonlyMap<string, string>;
  /** Null for a file alone. */
  job: PaperJob;
}

/** The plan in the file that `--plan` names. */
export function filePlan({ given }: CommandContext): Result<SourcePlan> {
  const plan = readPlanFile(given('plan') ?? '');
  return plan.ok ? success({ plan: plan.value, stale: [], proofs: new Map(), job: null }) : plan;
}

/** The plan of a job; with `--plan` that of the file in its place, for the same job. */
export async function jobPlan(call: JobCall, name: string): Promise<Result<SourcePlan>> {
  const found = await jobNamed(call.workshop, name);
  if (!found.ok) return found;
  const view = await jobView(call.workshop, found.value);
  if (view === null) throw new Error(`job ${found.value} must be there`);
  const { job } = view;
  const about = { id: job.id, number: job.number ?? null, name: job.name };
  if (call.given('plan') !== undefined) {
    const file = filePlan(call);
    return file.ok ? success({ ...file.value, job: about }) : file;
  }
  const stale = job.plan.stale.map(({ reading }) => reading);
  return success({ plan: job.plan.parts, stale, proofs: leadProofs(holdPointsOf(job)), job: about });
}
