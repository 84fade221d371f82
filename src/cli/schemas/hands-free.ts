// What `hands-free` answers, as JSON Schema.
import { z } from 'zod';

/** The answer of `hands-free`; tests hold real answers against it. */
export const handsFreeAnswerSchema = z.object({
  schema: z.literal('kickpanel.hands-free/1'),
  status: z.enum(['echo', 'no-echo', 'cannot-say']),
  says: z.string(),
  delayMs: z.number().nullable().describe('from the word to its echo, networks included'),
  lossDb: z.number().nullable().describe('echo under what was said; at least this where none was found'),
  likeness: z.number().nullable(),
  spokenS: z.number().describe('time in which the far end spoke'),
});

export const handsFreeJsonSchema = () => ({
  ...z.toJSONSchema(handsFreeAnswerSchema),
  title: 'the answer of hands-free',
});
