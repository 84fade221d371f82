// Recordings and tracks: files named by their content, and how they come in and go out.
import { createRoute, z } from '@hono/zod-openapi';
import { sha256Schema } from '../../job/entries.ts';
import { trackSchema } from '../../signals/track.ts';
import { relationWishes, trackKinds, trackRatesHz } from '../../signals/track-design/request.ts';
import { answers, errorResponses, takes } from './errors.ts';

const sound = { 'audio/wav': { schema: z.string().openapi({ format: 'binary' }) } };

const noteSchema = z.object({
  code: z.string(),
  message: z.string(),
  where: z.string().exactOptional(),
  values: z.record(z.string(), z.number()).exactOptional(),
});

export const storedRecordingSchema = z
  .object({
    sha256: sha256Schema,
    bytes: z.number().int(),
    wav: z.object({
      rateHz: z.number(),
      channels: z.number().int(),
      frames: z.number().int(),
      durationS: z.number(),
      bits: z.number(),
      floatingPoint: z.boolean(),
      /** What was odd about the file, which is kept as it is. */
      notes: z.array(noteSchema),
    }),
  })
  .openapi('StoredRecording');

export const putRecording = createRoute({
  method: 'put',
  path: '/api/recordings',
  summary: 'Keeps a WAV file as it is, streamed to disk; synced when this answers',
  description: 'The body is the file itself with content type audio/wav. Sending it again changes nothing.',
  request: {
    query: z.object({
      sha256: sha256Schema.exactOptional().describe('what the sender counted; refused if it differs'),
    }),
    body: { required: true, content: { 'audio/wav': { schema: z.any() } } },
  },
  responses: {
    200: answers(storedRecordingSchema, 'it was there'),
    201: answers(storedRecordingSchema, 'kept'),
    ...errorResponses,
  },
});

export const getRecording = createRoute({
  method: 'get',
  path: '/api/recordings/{sha256}',
  summary: 'The recording as it came in; byte ranges are served',
  request: { params: z.object({ sha256: sha256Schema }) },
  responses: {
    200: { description: 'the file', content: sound },
    206: { description: 'the part asked for', content: sound },
    416: { description: 'no such part' },
    ...errorResponses,
  },
});

const trackRequestSchema = z
  .strictObject({
    kind: z.enum(trackKinds),
    rateHz: z
      .number()
      .refine((rate) => (trackRatesHz as readonly number[]).includes(rate), 'a rate that players take')
      .default(48_000),
    fromHz: z.number().exactOptional(),
    toHz: z.number().exactOptional(),
    stimulusS: z.number().exactOptional(),
    levelDbfs: z.number().exactOptional(),
    levelsDbfs: z.array(z.number()).max(100).exactOptional(),
    side: z.enum(['left', 'right', 'both']).exactOptional(),
    markerSide: z.enum(['left', 'right', 'both', 'none']).exactOptional(),
    markerBandHz: z.object({ from: z.number(), to: z.number() }).exactOptional(),
    repeats: z.number().exactOptional(),
    seed: z.number().exactOptional(),
    tonesHz: z.array(z.number()).max(100).exactOptional(),
    relation: z.enum(relationWishes).exactOptional(),
    outputs: z.number().exactOptional(),
    code: z.number().exactOptional(),
  })
  .openapi('TrackRequest');

export const madeTrackSchema = z
  .object({
    /** Of the description; names the track everywhere. */
    sha256: sha256Schema,
    track: trackSchema,
    /** What to mind before it is played, in words. */
    cautions: z.array(z.object({ code: z.string(), message: z.string() })),
    wav: z
      .string()
      .nullable()
      .describe('where the sound is, 24 bit; null where it cannot be made from the description'),
    json: z.string().describe('where the description is'),
  })
  .openapi('MadeTrack');

export const makeTrack = createRoute({
  method: 'post',
  path: '/api/tracks',
  summary: 'Makes a test track, as sound and as the description by which a recording of it is read',
  request: { body: takes(trackRequestSchema) },
  responses: {
    200: answers(madeTrackSchema, 'it was there'),
    201: answers(madeTrackSchema, 'made'),
    ...errorResponses,
  },
});

export const keepTrack = createRoute({
  method: 'put',
  path: '/api/tracks',
  summary: 'Keeps the description of a track that was made elsewhere',
  request: { body: takes(trackSchema) },
  responses: {
    200: answers(madeTrackSchema, 'it was there'),
    201: answers(madeTrackSchema, 'kept'),
    ...errorResponses,
  },
});

export const getTrack = createRoute({
  method: 'get',
  path: '/api/tracks/{file}',
  summary: 'A track: SHA256.json is its description, SHA256.wav its sound',
  request: {
    params: z.object({ file: z.string().regex(/^[0-9a-f]{64}\.(json|wav)$/, 'a SHA-256, then .json or .wav') }),
  },
  responses: {
    200: { description: 'the file', content: { ...sound, 'application/json': { schema: trackSchema } } },
    206: { description: 'the part asked for', content: sound },
    416: { description: 'no such part' },
    ...errorResponses,
  },
});

export type StoredRecording = z.infer<typeof storedRecordingSchema>;
export type MadeTrack = z.infer<typeof madeTrackSchema>;
