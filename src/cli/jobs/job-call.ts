// What the parts of `job` share: the data folder opened, a job found by what a person calls it, who does it.
import { userInfo } from 'node:os';
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { dataFolderFor, type OpenWorkshop, openWorkshop } from '../../store/data-folder.ts';
import { isStoreFailure } from '../../store/failure.ts';
import { jobSummaries } from '../../store/job-views.ts';
import type { Workshop } from '../../store/workshop.ts';
import type { CommandContext, CommandOutcome } from '../command.ts';

/** The call without the word that says which part is meant. */
export interface JobCall extends CommandContext {
  open: OpenWorkshop;
  workshop: Workshop;
}

/** One part of `job`: `job NAME ...`. */
export interface JobPart {
  /** How many operands it takes: at least, at most. */
  operands: [number, number];
  usage: string;
  run: (call: JobCall) => Promise<CommandOutcome>;
  /** The same for a plan in a file (`--plan`), where no job is named. */
  withoutJob?: (context: CommandContext) => CommandOutcome | Promise<CommandOutcome>;
}

export const issuesOutcome = (...issues: Issue[]): CommandOutcome => ({ status: 2, issues });

/** Opens the data folder, runs the part, and closes the folder whatever happens. */
export async function runJobPart(part: JobPart, context: CommandContext): Promise<CommandOutcome> {
  const folder = dataFolderFor(context.given('data'), process.env);
  try {
    const open = await openWorkshop(folder);
    try {
      return await part.run({ ...context, open, workshop: open.workshop });
    } finally {
      await open.close();
    }
  } catch (error) {
    if (isStoreFailure(error)) return issuesOutcome(error.issue);
    throw error;
  }
}

/** Who does it: --who, else KICKPANEL_WHO, else the name of the account. */
export function whoOf(given: CommandContext['given']): string {
  const named = given('who') || process.env.KICKPANEL_WHO;
  if (named) return named.trim().slice(0, 80) || 'somebody';
  try {
    return userInfo().username || 'somebody';
  } catch {
    return 'somebody';
  }
}

/** The id of the job that `text` names: its id, its number, or the start of its id if only one starts so. */
export async function jobNamed(workshop: Workshop, text: string): Promise<Result<string>> {
  const head = await workshop.journals.head(text);
  if (head.entries > 0) return success(text);
  const summaries = await jobSummaries(workshop);
  const numbered = summaries.filter(({ number }) => number === text);
  const found = numbered.length > 0 ? numbered : summaries.filter(({ id }) => text !== '' && id.startsWith(text));
  if (found.length === 1) return success(found[0].id);
  const many = found.length > 1;
  const message = many ? `${found.length} jobs go by that name.` : 'There is no such job.';
  const mend = many ? 'Give the whole id; "kickpanel job list" shows it.' : '"kickpanel job list" shows the jobs.';
  return failure({ code: many ? 'job-ambiguous' : 'job-unknown', message, where: text, mend });
}
