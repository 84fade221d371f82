// `job leads JOB`: every lead with its ends, its size and its reading.
import type { Result } from '../../base/result.ts';
import { leadList } from '../../job/leads/lead-list.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import { writeWholeFile } from '../write-file.ts';
import { issuesOutcome, type JobPart } from './job-call.ts';
import { leadsCsv, leadsText } from './lead-text.ts';
import { filePlan, jobPlan, type SourcePlan } from './plan-source.ts';

function outcome({ given }: CommandContext, source: Result<SourcePlan>): CommandOutcome {
  if (!source.ok) return issuesOutcome(...source.issues);
  const { plan, stale, job } = source.value;
  const leads = leadList(plan, { stale });
  const path = given('csv');
  const written = path === undefined ? undefined : writeWholeFile(path, leadsCsv(leads));
  if (written?.ok === false) return issuesOutcome(...written.issues);
  const files = path === undefined ? {} : { written: [path] };
  return {
    status: 0,
    answer: { schema: 'kickpanel.leads/1', job: job?.id ?? null, leads, ...files },
    text: (style) => `${leadsText(leads, style)}${path === undefined ? '' : `\nWritten: ${path}\n`}`,
  };
}

export const leads: JobPart = {
  operands: [1, 1],
  usage: 'job leads JOB [--plan F.json] [--csv OUT.csv]',
  run: async (call) => outcome(call, await jobPlan(call, call.operands[0])),
  withoutJob: (context) => outcome(context, filePlan(context)),
};
