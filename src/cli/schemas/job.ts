// What `job` takes and answers, as JSON Schema: wishes, entries, a job's state, and what `show` and `verify` answer.
import { z } from 'zod';
import { commandSchema } from '../../job/commands/commands.ts';
import { chainedEntrySchema } from '../../job/entries.ts';
import { jobStateSchema } from '../../job/projections/job-state.ts';
import { verificationSchema } from '../../job/verification.ts';

/** Every form here is an object; a choice of several objects says so too. */
function titled(schema: z.ZodType, title: string): object {
  return { ...z.toJSONSchema(schema, { io: 'input' }), type: 'object', title };
}

export const wishJsonSchema = () => titled(commandSchema, 'a wish');
export const entryJsonSchema = () => titled(chainedEntrySchema, 'an entry in its journal');
export const jobStateJsonSchema = () => titled(jobStateSchema, 'a job as its entries make it');
export const verificationJsonSchema = () => titled(verificationSchema, 'kickpanel.verification/1');
