// What `job check-in` answers, as JSON Schema.
import { z } from 'zod';
import { checkInSchema } from '../../job/check-in/check-in.ts';
import { chainedEntrySchema } from '../../job/entries.ts';

const answer = checkInSchema.extend({
  schema: z.literal('kickpanel.check-in/1'),
  job: z.string(),
  complaint: z.string().nullable().describe('in the words of the owner; null where it was not taken down or is erased'),
  appended: z.array(chainedEntrySchema).describe('what was written into the journal'),
});

export const checkInJsonSchema = (): object => ({
  ...z.toJSONSchema(answer, { io: 'input' }),
  title: 'kickpanel.check-in/1',
});
