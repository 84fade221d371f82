// zod schemas as JSON Schema (draft 2020-12).
import { z } from 'zod';
import { trackSchema } from '../../signals/track.ts';
import { errorSchema } from './error.ts';
import { readAnswerSchema } from './read.ts';

function titled(schema: z.ZodType, title: string): object {
  return { ...z.toJSONSchema(schema, { io: 'input' }), title };
}

export function trackJsonSchema(): object {
  return titled(trackSchema, 'kickpanel.track/1');
}

export function readJsonSchema(): object {
  return titled(readAnswerSchema, 'kickpanel.read/1');
}

export function errorJsonSchema(): object {
  return titled(errorSchema, 'kickpanel error');
}
