// What belongs to the shop and not to one job: microphones, what this server is, and the news of all jobs.
import { createRoute, z } from '@hono/zod-openapi';
import { idSchema, timeSchema } from '../../job/entries.ts';
import { correctionSchema, entryData } from '../../job/entry-kinds.ts';
import { answers, errorResponses, takes } from './errors.ts';

export const microphoneSchema = z
  .object({
    microphone: idSchema,
    name: z.string(),
    fullScaleSplDb: z.number().exactOptional(),
    correction: correctionSchema.exactOptional(),
    method: z.string().exactOptional(),
    when: timeSchema,
    who: z.string(),
  })
  .openapi('Microphone');

const microphoneListSchema = z.object({ microphones: z.array(microphoneSchema) });

export const listMicrophones = createRoute({
  method: 'get',
  path: '/api/microphones',
  summary: "The shop's microphones with their newest calibration",
  responses: { 200: answers(microphoneListSchema, 'the microphones'), ...errorResponses },
});

export const calibrateMicrophone = createRoute({
  method: 'post',
  path: '/api/microphones',
  summary: 'A microphone, new or calibrated anew; what is not given stays as it was',
  request: {
    body: takes(
      z.object({ id: idSchema, who: z.string().trim().min(1).max(80), ...entryData['microphone-calibrated'].shape }),
    ),
  },
  responses: { 200: answers(microphoneListSchema, 'all microphones'), ...errorResponses },
});

export const readCorrection = createRoute({
  method: 'post',
  path: '/api/microphones/correction',
  summary: "Reads a microphone's correction file; nothing is kept",
  request: { body: { required: true, content: { 'text/plain': { schema: z.string() } } } },
  responses: {
    200: answers(
      z.object({
        correction: correctionSchema,
        notes: z.array(z.string()),
        sensitivity: z
          .object({ value: z.number(), unit: z.enum(['mV/Pa', 'dB re 1 V/Pa', 'dBFS', 'dB']) })
          .exactOptional()
          .describe('as the file states it'),
      }),
      'what it says',
    ),
    ...errorResponses,
  },
});

export const about = createRoute({
  method: 'get',
  path: '/api/about',
  summary: 'What this server is',
  responses: {
    200: answers(
      z
        .object({
          name: z.literal('Kickpanel'),
          version: z.string(),
          readerVersion: z.string(),
          device: idSchema,
          dataFolder: z.string(),
        })
        .openapi('About'),
      'name, versions and data folder',
    ),
    ...errorResponses,
  },
});

export const watchJobs = createRoute({
  method: 'get',
  path: '/api/events',
  summary: 'Server-sent events: "ready" once, then "changed" with {"job","entries","hash"} for each job that changes',
  responses: {
    200: { description: 'events', content: { 'text/event-stream': { schema: z.string() } } },
    ...errorResponses,
  },
});

export type Microphone = z.infer<typeof microphoneSchema>;
