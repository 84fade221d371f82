// The state of a job for a part that looks at it or changes it: of a job by name, or of a plan in a file alone.
import { failure, type Result, success } from '../../base/result.ts';
import type { Command as Wish } from '../../job/commands/commands.ts';
import type { ChainedEntry } from '../../job/entries.ts';
import { initialState } from '../../job/projections/evolve.ts';
import type { JobState } from '../../job/projections/job-state.ts';
import type { Plan } from '../../plan/plan.ts';
import { jobView } from '../../store/job-views.ts';
import { carryOut } from '../../store/write-entries.ts';
import type { CommandContext } from '../command.ts';
import { type JobCall, jobNamed, whoOf } from './job-call.ts';
import { readPlanFile } from './plan-file.ts';

export async function stateNamed({ workshop }: Pick<JobCall, 'workshop'>, name: string): Promise<Result<JobState>> {
  const job = await jobNamed(workshop, name);
  if (!job.ok) return job;
  const view = await jobView(workshop, job.value);
  if (view === null) throw new Error(`job ${job.value} must be there`);
  return success(view.job);
}

/** A plan as a job that has nothing else. */
export function stateOfPlan(parts: Plan): JobState {
  const state = initialState('plan');
  return { ...state, plan: { ...state.plan, parts } };
}

/** The plan in the file that `--plan` names, as a job that has nothing else. */
export function stateOfFile({ given }: CommandContext): Result<JobState> {
  const plan = readPlanFile(given('plan') ?? '');
  return plan.ok ? success(stateOfPlan(plan.value)) : plan;
}

/** The job that is named; a plan in a file has no evidence, so it cannot stand in for that of a job here. */
export async function stateAsked(call: JobCall): Promise<Result<JobState>> {
  if (call.given('plan') === undefined) return stateNamed(call, call.operands[0]);
  const message = 'A plan in a file and a job are two things.';
  return failure({ code: 'options-conflict', message, where: '--plan', mend: 'Name the job, or give --plan alone.' });
}

/** The job after wishes were carried out, all or none, with what was written. */
export async function carriedOut(
  call: JobCall,
  job: string,
  ...wishes: Wish[]
): Promise<Result<{ appended: ChainedEntry[]; state: JobState }>> {
  const { workshop, given } = call;
  const requests = wishes.map((wish) => ({ id: workshop.freshId(), who: whoOf(given), wish }));
  const written = await carryOut(workshop, job, requests);
  if (!written.ok) return written;
  const after = await stateNamed(call, job);
  return after.ok ? success({ appended: written.value.appended, state: after.value }) : after;
}
