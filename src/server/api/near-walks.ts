// Near walks: all takes of a job that were made close to its drivers, read together; and one long take cut into its stops.
import { createRoute, z } from '@hono/zod-openapi';
import { idSchema, sha256Schema } from '../../job/entries.ts';
import type { JobNearWalk } from '../../job/near-walk/job-near-walk.ts';
import { answers, errorResponses, takes } from './errors.ts';
import { jobParam } from './jobs.ts';

/** The answer's own form is `kickpanel schema nearwalk`; here it passes as it is, with a curve for each place. */
const walkSchema = z.custom<JobNearWalk>().openapi('NearWalk', {
  type: 'object',
  description:
    'what "kickpanel schema nearwalk" prints, and `curves`: for each place its level over frequency, dB against the loudest of its own',
  properties: { status: { type: 'string' }, curves: { type: 'array', items: { type: 'object' } } },
});

const playSchema = z.object({
  /** Where in the long recording the track begins. */
  startS: z.number(),
  durationS: z.number(),
  /** The play, kept as a recording of its own. */
  recording: sha256Schema,
  bytes: z.number().int(),
});

export const nearStateSchema = z
  .object({
    id: sha256Schema,
    state: z.enum(['waiting', 'running', 'done', 'cancelled', 'failed']),
    /** 0 .. 1 */
    share: z.number(),
    doing: z.string(),
    /** Of a near walk: the takes that it is read from. */
    takes: z.array(z.object({ place: z.string(), take: idSchema })).exactOptional(),
    /** Of a near walk, when done. */
    walk: walkSchema.exactOptional(),
    /** Of a long recording, when done: its whole plays in their order. */
    plays: z.array(playSchema).exactOptional(),
    /** When failed. */
    error: z
      .object({
        code: z.string(),
        message: z.string(),
        where: z.string().exactOptional(),
        mend: z.string().exactOptional(),
      })
      .exactOptional(),
  })
  .openapi('NearState');

const nearParam = z.object({ id: sha256Schema });

export const startNearWalk = createRoute({
  method: 'post',
  path: '/api/jobs/{job}/near-walk',
  summary: 'Reads the near takes of a job together, or answers at once with what is kept',
  description:
    'Of each place of the plan counts the last take of a near track that names it. The id follows from plan, takes and the version of the reader: the same job as it stands, the same id.',
  request: { params: jobParam },
  responses: {
    200: answers(nearStateSchema, 'it was read before'),
    202: answers(nearStateSchema, 'it is being read'),
    ...errorResponses,
  },
});

export const startPlays = createRoute({
  method: 'post',
  path: '/api/near-plays',
  summary: 'Cuts one long recording into the whole plays of a track, each kept as a recording of its own',
  request: { body: takes(z.object({ recording: sha256Schema, track: sha256Schema })) },
  responses: {
    200: answers(nearStateSchema, 'it was cut before'),
    202: answers(nearStateSchema, 'it is being cut'),
    ...errorResponses,
  },
});

export const showNear = createRoute({
  method: 'get',
  path: '/api/near/{id}',
  summary: 'A near walk or a cutting, or how far it has come',
  request: { params: nearParam },
  responses: { 200: answers(nearStateSchema, 'as it stands'), ...errorResponses },
});

export const cancelNear = createRoute({
  method: 'delete',
  path: '/api/near/{id}',
  summary: 'Stops what is waiting or running; what is done stays',
  request: { params: nearParam },
  responses: { 200: answers(nearStateSchema, 'as it stands now'), ...errorResponses },
});

export type NearState = z.infer<typeof nearStateSchema>;
