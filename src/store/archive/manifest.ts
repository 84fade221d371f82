// What an archive says about itself: `job.json`, the first file in it.
import { z } from 'zod';
import { idSchema, sha256Schema, timeSchema } from '../../job/entries.ts';
import { type PhotoType, photoTypes } from '../../job/entry-kinds.ts';
import type { ContentKind } from '../content-store.ts';

export const manifestSchema = z.looseObject({
  schema: z.literal('kickpanel.archive/1'),
  job: idSchema,
  name: z.string(),
  exportedWhen: timeSchema,
  /** The program's version that wrote it. */
  version: z.string(),
  head: z.object({ entries: z.number().int().min(1), hash: sha256Schema }),
  /** Whether owner, plate and telephone number are in it. */
  personal: z.enum(['included', 'left-out']),
  /** Every other file, in the order in which they follow. */
  files: z.array(z.object({ path: z.string(), bytes: z.number().int().min(0), sha256: sha256Schema })).max(1_000_000),
});

export type Manifest = z.infer<typeof manifestSchema>;

export const manifestPath = 'job.json';
export const entriesPath = 'entries.jsonl';
export const personalPath = 'personal.jsonl';
export const readmePath = 'README.txt';
export const recordingPath = (sha256: string) => `recordings/${sha256}.wav`;
/** The ending says what the photo is. */
export const photoPath = (sha256: string, type: PhotoType) => `photos/${sha256}.${type === 'jpeg' ? 'jpg' : 'png'}`;
export const trackPath = (sha256: string) => `tracks/${sha256}.json`;
export const trackSoundPath = (sha256: string) => `tracks/${sha256}.wav`;

/** Where a file of the job may stand, by its kind and hash: a photo under either ending. */
export function pathsOf(kind: ContentKind, sha256: string): string[] {
  if (kind === 'recordings') return [recordingPath(sha256)];
  if (kind === 'tracks') return [trackPath(sha256)];
  return photoTypes.map((type) => photoPath(sha256, type));
}
