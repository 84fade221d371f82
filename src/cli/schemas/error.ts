// The form of bad news with --json.
import { z } from 'zod';

const issue = z.object({
  code: z.string().describe('stable, for scripts'),
  message: z.string().describe('what is wrong, for a person'),
  where: z.string().optional().describe('the option, file or path inside the file'),
  mend: z.string().optional().describe('what to do about it'),
});

/** `{"error":{...}}`: the first issue, and all of them in `issues` when there are more. */
export const errorSchema = z.object({ error: issue.extend({ issues: z.array(issue).optional() }) });
