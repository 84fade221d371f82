// `job leads JOB`: every lead with its ends, its size and its reading; as a table or on paper if asked.
import type { Result } from '../../base/result.ts';
import { leadList } from '../../job/leads/lead-list.ts';
import { leadPaper } from '../../report/job-papers.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import { writeWholeFile } from '../write-file.ts';
import { issuesOutcome, type JobPart } from './job-call.ts';
import { leadsCsv, leadsText } from './lead-text.ts';
import { filePlan, jobPlan, type SourcePlan } from './plan-source.ts';
import { writePages } from './write-pages.ts';

async function outcome({ given }: CommandContext, source: Result<SourcePlan>): Promise<CommandOutcome> {
  if (!source.ok) return issuesOutcome(...source.issues);
  const { plan, stale, proofs, job } = source.value;
  const leads = leadList(plan, { stale, proofs });
  const [table, paper] = [given('csv'), given('out')];
  const written: string[] = [];
  if (paper !== undefined) {
    const pages = await writePages(paper, leadPaper(leads, job));
    if (!pages.ok) return issuesOutcome(...pages.issues);
    written.push(...pages.value);
  }
  if (table !== undefined) {
    const file = writeWholeFile(table, leadsCsv(leads));
    if (!file.ok) return issuesOutcome(...file.issues);
    written.push(table);
  }
  const files = written.length === 0 ? {} : { written };
  return {
    status: 0,
    answer: { schema: 'kickpanel.leads/1', job: job?.id ?? null, leads, ...files },
    text: (style) => [leadsText(leads, style), ...written.map((file) => `Written: ${file}\n`)].join('\n'),
  };
}

export const leads: JobPart = {
  operands: [1, 1],
  usage: 'job leads JOB [--plan F.json] [--csv OUT.csv] [--out LEADS.pdf]',
  run: async (call) => outcome(call, await jobPlan(call, call.operands[0])),
  withoutJob: (context) => outcome(context, filePlan(context)),
};
