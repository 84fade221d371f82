// What a proof of a job says: whole, or everything that is not, the first altered entry first.
import { z } from 'zod';
import { sha256Schema } from './entries.ts';

const faultSchema = z.object({
  /** States what is wrong, as a fact. */
  code: z.string(),
  message: z.string(),
  /** Of the entry concerned, counted from 1. */
  position: z.number().int().exactOptional(),
  entry: z.string().exactOptional(),
  /** Hash of the file or name of the record concerned. */
  where: z.string().exactOptional(),
});

export const verificationSchema = z.object({
  schema: z.literal('kickpanel.verification/1'),
  job: z.string(),
  whole: z.boolean(),
  /** Where the journal ends as it stands. */
  head: z.object({ entries: z.number().int(), hash: sha256Schema }),
  /** Recordings, tracks and photos whose content was hashed again and is as it was. */
  recordings: z.number().int(),
  tracks: z.number().int(),
  photos: z.number().int(),
  personalRecords: z.object({ held: z.number().int(), erased: z.number().int(), leftOut: z.number().int() }),
  faults: z.array(faultSchema),
});

export type Verification = z.infer<typeof verificationSchema>;
export type VerificationFault = z.infer<typeof faultSchema>;
