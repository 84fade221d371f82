// What `source` answers, as JSON Schema.
import { z } from 'zod';

const phase = z.object({
  delayS: z.number().describe('after the loudest moment of the response'),
  sign: z.union([z.literal(1), z.literal(-1)]),
  allPass: z
    .object({ fHz: z.number(), order: z.union([z.literal(1), z.literal(2)]), q: z.number().nullable() })
    .nullable(),
  residualDeg: z.number(),
  plainResidualDeg: z.number().describe('what a delay alone leaves unexplained'),
});

const output = z.object({
  output: z.string(),
  side: z.enum(['left', 'right', 'both']).nullable().describe('of the track that feeds it'),
  steps: z.array(
    z.object({
      step: z.number(),
      take: z.string(),
      reason: z.string().nullable().describe('why it cannot be read'),
      levelDb: z.number().nullable().describe('recorded over played'),
    }),
  ),
  lowHz: z.number().nullable(),
  highHz: z.number().nullable(),
  shape: z.object({ fHz: z.array(z.number()), levelDb: z.array(z.number()) }),
  delayMs: z.number().nullable().describe('after the earliest output of the same take'),
  phase: phase.nullable(),
  withVolume: z
    .object({ fromStep: z.number(), toStep: z.number(), fHz: z.array(z.number()), changeDb: z.array(z.number()) })
    .nullable(),
});

/** The answer of `source`; tests hold real answers against it. */
export const sourceAnswerSchema = z.object({
  schema: z.literal('kickpanel.source/1'),
  verdict: z.enum(['clean', 'to-undo', 'not-to-undo', 'cannot-say']),
  says: z.string(),
  outputs: z.array(output),
  sums: z.array(
    z.object({
      take: z.string(),
      outputs: z.array(z.string()),
      fHz: z.array(z.number()),
      lossDb: z.array(z.number()).describe('against what they would give in step'),
    }),
  ),
  findings: z.array(
    z.object({
      what: z.enum(['equalizer', 'high-pass', 'low-pass', 'delay', 'phase', 'polarity', 'loudness', 'sum', 'unread']),
      outputs: z.array(z.string()),
      undo: z.enum(['yes', 'no', 'in-part']),
      says: z.string(),
      mend: z.string(),
    }),
  ),
});

export const sourceJsonSchema = () => ({ ...z.toJSONSchema(sourceAnswerSchema), title: 'the answer of source' });
