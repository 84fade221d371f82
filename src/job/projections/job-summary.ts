// One line about a job, for the list of jobs.
import { z } from 'zod';
import { idSchema, timeSchema } from '../entries.ts';
import { bodyTypes } from '../entry-kinds.ts';
import type { JobState } from './job-state.ts';
import { waitsOf } from './waits.ts';

export const jobSummarySchema = z.object({
  id: idSchema,
  name: z.string(),
  number: z.string().exactOptional(),
  purpose: z.enum(['car', 'shop']),
  bodyType: z.enum(bodyTypes).exactOptional(),
  vehicle: z.string().exactOptional(),
  createdWhen: timeSchema.nullable(),
  changedWhen: timeSchema.nullable(),
  entries: z.number().int(),
  takes: z.number().int(),
  /** The first thing that it waits for, in a sentence. */
  waits: z.string().nullable(),
});

export type JobSummary = z.infer<typeof jobSummarySchema>;

export function summaryOf(state: JobState): JobSummary {
  const { id, name, number, purpose, vehicle, created, changedWhen, entries, takes } = state;
  return {
    id,
    name,
    ...(number === undefined ? {} : { number }),
    purpose,
    ...(vehicle.bodyType === undefined ? {} : { bodyType: vehicle.bodyType }),
    ...(vehicle.name === undefined ? {} : { vehicle: vehicle.name }),
    createdWhen: created?.when ?? null,
    changedWhen,
    entries,
    takes: takes.length,
    waits: waitsOf(state)[0]?.message ?? null,
  };
}
