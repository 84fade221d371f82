// Photos: how they come in and go out. Their type is told by their content, never by what the sender calls them.
import { createRoute, z } from '@hono/zod-openapi';
import { sha256Schema } from '../../job/entries.ts';
import { photoTypes } from '../../job/entry-kinds.ts';
import { answers, errorResponses } from './errors.ts';

const picture = {
  'image/jpeg': { schema: z.string().openapi({ format: 'binary' }) },
  'image/png': { schema: z.string().openapi({ format: 'binary' }) },
};

export const storedPhotoSchema = z
  .object({
    sha256: sha256Schema,
    bytes: z.number().int(),
    type: z.enum(photoTypes),
    widthPx: z.number().int(),
    heightPx: z.number().int(),
  })
  .openapi('StoredPhoto');

export const putPhoto = createRoute({
  method: 'put',
  path: '/api/photos',
  summary: 'Keeps a photo as it is, JPEG or PNG, streamed to disk; synced when this answers',
  description: 'The body is the file itself, of at most 40 MB. Sending it again changes nothing.',
  request: {
    query: z.object({
      sha256: sha256Schema.exactOptional().describe('what the sender counted; refused if it differs'),
    }),
    body: { required: true, content: { 'image/jpeg': { schema: z.any() }, 'image/png': { schema: z.any() } } },
  },
  responses: {
    200: answers(storedPhotoSchema, 'it was there'),
    201: answers(storedPhotoSchema, 'kept'),
    ...errorResponses,
  },
});

export const getPhoto = createRoute({
  method: 'get',
  path: '/api/photos/{sha256}',
  summary: 'The photo as it came in',
  request: { params: z.object({ sha256: sha256Schema }) },
  responses: {
    200: { description: 'the file', content: picture },
    206: { description: 'the part asked for', content: picture },
    416: { description: 'no such part' },
    ...errorResponses,
  },
});

export type StoredPhoto = z.infer<typeof storedPhotoSchema>;
