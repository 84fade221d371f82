// What a person heard in a channel walk, what a proposed test gave, and that something was mended since.
import { z } from 'zod';
import { idSchema } from '../entries.ts';

const short = z.string().trim().min(1).max(200);

export const heardSchema = z.discriminatedUnion('how', [
  z.object({
    how: z.literal('played'),
    side: z.enum(['left', 'right', 'both']),
    /** Channels that were not muted. */
    channels: z.array(idSchema).min(1).max(24),
    /** Every place that sounded, by its id; nothing is heard where the list is empty. */
    heard: z.array(z.object({ place: idSchema, polarity: z.enum(['+', '-', '?']) })).max(24),
  }),
  /** A test as the walk proposed it. */
  z.object({ how: z.literal('tested'), test: short, outcome: short }),
  /** What was moved or mended: what was heard wrongly before it no longer counts. */
  z.object({ how: z.literal('mended'), what: z.string().trim().min(1).max(2000) }),
]);

export type Heard = z.infer<typeof heardSchema>;
