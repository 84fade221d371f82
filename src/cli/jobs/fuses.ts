// `job fuses JOB`: the fuse chart.
import type { Result } from '../../base/result.ts';
import { type FuseRow, fuseChart } from '../../job/fuses/fuse-chart.ts';
import { fusePaper } from '../../report/job-papers.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';
import type { TextStyle } from '../output.ts';
import { wrapped } from '../wrap.ts';
import { issuesOutcome, type JobPart } from './job-call.ts';
import { filePlan, jobPlan, type SourcePlan } from './plan-source.ts';
import { writePages } from './write-pages.ts';

const amperes = (value: number | null) => (value === null ? 'not known' : `${Number(value.toPrecision(3))} A`);

function fusesText(rows: readonly FuseRow[], { width }: TextStyle): string {
  if (rows.length === 0) return 'The plan has no runs yet.\n';
  const lines = rows.flatMap((row) => {
    const rating = row.ratedA === null ? '' : `  ${row.ratedA} A${row.family === null ? '' : ` ${row.family}`}`;
    const at = row.atM === null ? '' : `, ${row.atM} m along it`;
    return [
      ...wrapped(`${row.fuse ?? 'no fuse'}${rating}  ${row.from ?? '?'} to ${row.to ?? '?'}${at}`, width, 4),
      ...wrapped(
        `    ${row.cable} allows ${amperes(row.allowedA)}; music ${amperes(row.musicA)}, full sine ${amperes(row.sineA)}.`,
        width,
        4,
      ),
      ...wrapped(`    ${row.says}`, width, 4),
      '',
    ];
  });
  return `${lines.join('\n').trimEnd()}\n`;
}

async function outcome({ given }: CommandContext, source: Result<SourcePlan>): Promise<CommandOutcome> {
  if (!source.ok) return issuesOutcome(...source.issues);
  const { plan, job } = source.value;
  const fuses = fuseChart(plan);
  const path = given('out');
  const written = path === undefined ? undefined : await writePages(path, fusePaper(fuses, job));
  if (written?.ok === false) return issuesOutcome(...written.issues);
  const files = written === undefined ? {} : { written: written.value };
  return {
    status: 0,
    answer: { schema: 'kickpanel.fuses/1', job: job?.id ?? null, fuses, ...files },
    text: (style) =>
      [fusesText(fuses, style), ...(written?.value ?? []).map((file) => `Written: ${file}\n`)].join('\n'),
  };
}

export const fuses: JobPart = {
  operands: [1, 1],
  usage: 'job fuses JOB [--plan F.json] [--out FUSES.pdf]',
  run: async (call) => outcome(call, await jobPlan(call, call.operands[0])),
  withoutJob: (context) => outcome(context, filePlan(context)),
};
