// What `job` takes and answers, as JSON Schema: wishes, entries, plans, a job's state, and what its parts answer.
import { z } from 'zod';
import { commandSchema } from '../../job/commands/commands.ts';
import { chainedEntrySchema } from '../../job/entries.ts';
import { fuseRowSchema } from '../../job/fuses/fuse-chart.ts';
import { leadRowSchema } from '../../job/leads/lead-list.ts';
import { jobStateSchema } from '../../job/projections/job-state.ts';
import { planCheckSchema } from '../../job/projections/plan-check.ts';
import { verificationSchema } from '../../job/verification.ts';
import { planSchema } from '../../plan/plan.ts';

/** Every form here is an object; a choice of several objects says so too. */
function titled(schema: z.ZodType, title: string): object {
  return { ...z.toJSONSchema(schema, { io: 'input' }), type: 'object', title };
}

export const wishJsonSchema = () => titled(commandSchema, 'a wish');
export const entryJsonSchema = () => titled(chainedEntrySchema, 'an entry in its journal');
export const jobStateJsonSchema = () => titled(jobStateSchema, 'a job as its entries make it');
export const verificationJsonSchema = () => titled(verificationSchema, 'kickpanel.verification/1');

export const planJsonSchema = () => titled(planSchema, 'kickpanel.plan/1');
export const planCheckJsonSchema = () =>
  titled(planCheckSchema.extend({ schema: z.literal('kickpanel.plan-check/1') }), 'kickpanel.plan-check/1');

const leads = z.object({
  schema: z.literal('kickpanel.leads/1'),
  job: z.string().nullable(),
  leads: z.array(leadRowSchema).describe('in the order in which a person walks the car'),
  written: z.array(z.string()).exactOptional(),
});
export const leadsJsonSchema = () => titled(leads, 'kickpanel.leads/1');

const fuses = z.object({
  schema: z.literal('kickpanel.fuses/1'),
  job: z.string().nullable(),
  fuses: z.array(fuseRowSchema).describe('currents in A; null where it is not known'),
  written: z.array(z.string()).exactOptional(),
});
export const fusesJsonSchema = () => titled(fuses, 'kickpanel.fuses/1');
