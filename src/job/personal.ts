// What is known of a person: kept apart from the journal, so that it can be erased and the journal still holds.
import { z } from 'zod';
import { idSchema, timeSchema } from './entries.ts';
import { personalKinds } from './entry-kinds.ts';

/**
 * One thing known of a person. Once erased, salt and value are gone and the time stands in their place; without the salt
 * nobody can find a plate or a telephone number by trying them all against the hash in the journal.
 */
export const personalRecordSchema = z.object({
  id: idSchema,
  job: idSchema,
  kind: z.enum(personalKinds),
  salt: z
    .string()
    .regex(/^[0-9a-f]{32,64}$/)
    .nullable(),
  value: z.string().min(1).max(2000).nullable(),
  erasedWhen: timeSchema.exactOptional(),
});

export type PersonalRecord = z.infer<typeof personalRecordSchema>;

/** Hash that an entry carries for a personal record; `sha256` takes text as UTF-8 and answers in hexadecimal digits. */
export function personalHash(salt: string, value: string, sha256: (text: string) => string): string {
  return sha256(`${salt}\n${value}`);
}
