// Readings: what a take says, computed on request, watched while it is, and kept as long as the reader stays the same.
import { createRoute, z } from '@hono/zod-openapi';
import { sha256Schema } from '../../job/entries.ts';
import { correctionSchema } from '../../job/entry-kinds.ts';
import type { Reading } from '../../measurement/reading.ts';
import { answers, errorResponses, takes } from './errors.ts';

export const readOptionsSchema = z
  .strictObject({
    expectArrivalS: z
      .object({ from: z.number().min(-1).max(1), to: z.number().min(-1).max(1) })
      .refine(({ from, to }) => from < to, 'from must be below to')
      .exactOptional(),
    /** Counted from 0. */
    input: z.number().int().min(0).max(63).exactOptional(),
    smoothOctaves: z.number().min(0).max(1).exactOptional(),
    bandHz: z
      .object({ low: z.number().min(1).max(96_000), high: z.number().min(1).max(96_000) })
      .refine(({ low, high }) => low < high, 'low must be below high')
      .exactOptional(),
    fullScaleSplDb: z.number().min(40).max(200).exactOptional(),
    microphone: correctionSchema.exactOptional(),
  })
  .openapi('ReadOptions');

/** The reading's own form is `kickpanel schema read`; here it passes as it is. */
const readingSchema = z.custom<Reading>().openapi('Reading', {
  type: 'object',
  description: 'kickpanel.read/1, the form that "kickpanel schema read" prints',
  properties: { schema: { type: 'string', enum: ['kickpanel.read/1'] } },
});

export const readingStateSchema = z
  .object({
    id: sha256Schema,
    state: z.enum(['waiting', 'running', 'done', 'cancelled', 'failed']),
    recording: sha256Schema,
    track: sha256Schema,
    /** 0 .. 1 */
    share: z.number(),
    doing: z.string(),
    /** When done. */
    reading: readingSchema.exactOptional(),
    /** Whether GET .../impulse has an impulse response; when done. */
    impulse: z.boolean().exactOptional(),
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
  .openapi('ReadingState');

const readingParam = z.object({ id: sha256Schema });

export const startReading = createRoute({
  method: 'post',
  path: '/api/readings',
  summary: 'Reads a take, or answers at once with the reading that is kept',
  description:
    'The id follows from recording, track, options and the version of the reader: the same call, the same id.',
  request: {
    body: takes(z.object({ recording: sha256Schema, track: sha256Schema, options: readOptionsSchema.default({}) })),
  },
  responses: {
    200: answers(readingStateSchema, 'it was read before'),
    202: answers(readingStateSchema, 'it is being read'),
    ...errorResponses,
  },
});

export const showReading = createRoute({
  method: 'get',
  path: '/api/readings/{id}',
  summary: 'The reading, or how far it has come',
  request: { params: readingParam },
  responses: { 200: answers(readingStateSchema, 'as it stands'), ...errorResponses },
});

export const watchReading = createRoute({
  method: 'get',
  path: '/api/readings/{id}/events',
  summary: 'Server-sent events: progress, then done, failed or cancelled; each carries the state without the reading',
  request: { params: readingParam },
  responses: {
    200: { description: 'events', content: { 'text/event-stream': { schema: z.string() } } },
    ...errorResponses,
  },
});

export const getImpulse = createRoute({
  method: 'get',
  path: '/api/readings/{id}/impulse',
  summary:
    'The impulse response as a 32-bit float WAV; the header kickpanel-arrival-index counts samples to the direct sound',
  request: { params: readingParam },
  responses: {
    200: { description: 'the file', content: { 'audio/wav': { schema: z.string().openapi({ format: 'binary' }) } } },
    ...errorResponses,
  },
});

export const cancelReading = createRoute({
  method: 'delete',
  path: '/api/readings/{id}',
  summary: 'Stops a reading that is waiting or running; one that is done stays',
  request: { params: readingParam },
  responses: { 200: answers(readingStateSchema, 'as it stands now'), ...errorResponses },
});

export type ReadingState = z.infer<typeof readingStateSchema>;
