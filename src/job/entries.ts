// What a journal is made of: entries, plain JSON, written once. A correction is a new entry.
import { z } from 'zod';

/** A name for one thing, made by whoever makes the thing: a random UUID or anything as unlikely to come twice. */
export const idSchema = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/, 'an id is 1 to 64 letters, digits, ".", "_" or "-"');

/** SHA-256 as 64 small hexadecimal digits. */
export const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 is 64 hexadecimal digits');

/** Coordinated universal time in milliseconds, always of the same length, so that text order is time order. */
export const timeSchema = z.iso.datetime({ precision: 3 });

/** Anything JSON can say. */
export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };

export type JsonObject = { [key: string]: Json };

/**
 * One entry as its author wrote it. Fields that this version does not know are kept, and so are kinds.
 *
 * `id` makes it idempotent; `sequence` counts the entries of one device in one job from 1; `version` is the version of
 * the form of `data`.
 */
export const entrySchema = z.looseObject({
  id: idSchema,
  job: idSchema,
  device: idSchema,
  sequence: z
    .number()
    .int()
    .min(1)
    .max(2 ** 53 - 1),
  when: timeSchema,
  // Nothing is trimmed or changed here: what is hashed must be what was written.
  who: z.string().min(1).max(80).regex(/\S/, 'somebody must be named'),
  kind: z.string().regex(/^[a-z][a-z0-9-]{0,63}$/, 'a kind is small letters, digits and "-"'),
  version: z.number().int().min(1).max(1e6),
  // What is read from JSON is JSON; `canonicalJson` refuses the rest.
  data: z.record(z.string(), z.unknown()) as unknown as z.ZodType<JsonObject>,
});

/** An entry in its place in a journal: it carries the hash of the entry before it, and its own. */
export const chainedEntrySchema = entrySchema.extend({ previousHash: sha256Schema, hash: sha256Schema });

export type Entry = z.infer<typeof entrySchema>;
export type ChainedEntry = z.infer<typeof chainedEntrySchema>;

/** What the first entry of a journal carries as the hash before it. */
export const noHash = '0'.repeat(64);

/** Longest canonical form of one entry, bytes; what is larger belongs into a file of its own. */
export const entryBytesMax = 1 << 20;
