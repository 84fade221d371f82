// Jobs: the list, one job as it stands, its entries, and wishes that become entries.
import { createRoute, z } from '@hono/zod-openapi';
import { requestSchema } from '../../job/commands/commands.ts';
import { chainedEntrySchema, entrySchema, idSchema, sha256Schema } from '../../job/entries.ts';
import { personalKinds } from '../../job/entry-kinds.ts';
import { jobStateSchema } from '../../job/projections/job-state.ts';
import { jobSummarySchema } from '../../job/projections/job-summary.ts';
import { verificationSchema } from '../../job/verification.ts';
import { answers, errorResponses, takes } from './errors.ts';

export const jobParam = z.object({ job: idSchema });

const headSchema = z.object({ entries: z.number().int(), hash: sha256Schema });

// Forms of the core are made anew here: only those made by this library's zod can be given a name in the description.
const summarySchema = z.object(jobSummarySchema.shape).openapi('JobSummary');

const waitSchema = z.object({
  /** States what is missing, as a fact. */
  code: z.string(),
  message: z.string(),
  about: z.string().exactOptional(),
});

export const jobViewSchema = z
  .object({
    job: jobStateSchema,
    /** What the job waits for, the nearest first. */
    waits: z.array(waitSchema),
    /** What is known of the person, by kind; null once erased or not kept here. */
    personal: z.partialRecord(z.enum(personalKinds), z.object({ record: idSchema, value: z.string().nullable() })),
    head: headSchema,
  })
  .openapi('JobView');

export const appendedSchema = z
  .object({
    appended: z.array(chainedEntrySchema),
    /** Ids that the journal had already, with the same content. */
    known: z.array(idSchema),
    view: jobViewSchema,
  })
  .openapi('Appended');

const proofSchema = z.object(verificationSchema.shape).openapi('Verification');

export const listJobs = createRoute({
  method: 'get',
  path: '/api/jobs',
  summary: 'All jobs, the one changed last first',
  responses: { 200: answers(z.object({ jobs: z.array(summarySchema) }), 'the jobs'), ...errorResponses },
});

export const createJob = createRoute({
  method: 'post',
  path: '/api/jobs',
  summary: 'A new job; sending the same ids again answers with the job that is there',
  request: {
    body: takes(
      z.object({
        /** Id of the job, made by the caller; made here if absent. */
        job: idSchema.exactOptional(),
        requests: z.array(requestSchema).min(1).max(100).describe('createJob first, then whatever else is known'),
      }),
    ),
  },
  responses: {
    200: answers(appendedSchema, 'it was there'),
    201: answers(appendedSchema, 'the new job'),
    ...errorResponses,
  },
});

export const showJob = createRoute({
  method: 'get',
  path: '/api/jobs/{job}',
  summary: 'One job as its entries make it, and what it waits for',
  request: { params: jobParam },
  responses: { 200: answers(jobViewSchema, 'the job'), ...errorResponses },
});

export const listEntries = createRoute({
  method: 'get',
  path: '/api/jobs/{job}/entries',
  summary: 'The journal, in the order in which it was written',
  request: {
    params: jobParam,
    query: z.object({
      after: z.coerce.number().int().min(0).default(0).describe('leave out so many from the start'),
    }),
  },
  responses: {
    200: answers(z.object({ entries: z.array(chainedEntrySchema), head: headSchema }), 'the entries'),
    ...errorResponses,
  },
});

export const appendEntries = createRoute({
  method: 'post',
  path: '/api/jobs/{job}/entries',
  summary: 'Wishes, or entries that another device wrote: all are kept or none; on disk when this answers',
  request: {
    params: jobParam,
    body: takes(
      z.union([
        z.object({ requests: z.array(requestSchema).min(1).max(100) }),
        z.object({ entries: z.array(entrySchema).min(1).max(10_000) }),
      ]),
    ),
  },
  responses: {
    200: answers(appendedSchema, 'all of it was there'),
    201: answers(appendedSchema, 'what was appended'),
    ...errorResponses,
  },
});

export const verifyJob = createRoute({
  method: 'get',
  path: '/api/jobs/{job}/verify',
  summary: 'Proves entries, recordings, tracks and photos whole, or names the first that is not',
  request: {
    params: jobParam,
    query: z.object({ hash: sha256Schema.exactOptional().describe('the last hash as a report or a person kept it') }),
  },
  responses: { 200: answers(proofSchema, 'what was found'), ...errorResponses },
});

export const exportJob = createRoute({
  method: 'get',
  path: '/api/jobs/{job}/export',
  summary: 'The whole job as one ZIP',
  request: {
    params: jobParam,
    query: z.object({
      personal: z.enum(['yes', 'no']).default('yes').describe('no leaves owner, plate and phone out'),
    }),
  },
  responses: {
    200: {
      description: 'the archive',
      content: { 'application/zip': { schema: z.string().openapi({ format: 'binary' }) } },
    },
    ...errorResponses,
  },
});

export const importedSchema = z
  .object({
    job: idSchema,
    appended: z.number().int(),
    known: z.number().int(),
    recordings: z.number().int(),
    tracks: z.number().int(),
    photos: z.number().int(),
  })
  .openapi('Imported');

export const importJob = createRoute({
  method: 'post',
  path: '/api/import',
  summary: 'Takes in an archive once it is proved whole; what is there already is left as it is',
  request: { body: { required: true, content: { 'application/zip': { schema: z.any() } } } },
  responses: {
    200: answers(importedSchema, 'nothing was new'),
    201: answers(importedSchema, 'what came in'),
    ...errorResponses,
  },
});

export type { JobSummary } from '../../job/projections/job-summary.ts';
export type JobView = z.infer<typeof jobViewSchema>;
export type Appended = z.infer<typeof appendedSchema>;
export type Imported = z.infer<typeof importedSchema>;
