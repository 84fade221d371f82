// What `impedance` answers, as JSON Schema.
import { z } from 'zod';

const compared = z.object({
  value: z.enum(['reOhm', 'fsHz', 'qms', 'qes', 'qts']),
  name: z.string(),
  unit: z.string(),
  sheet: z.number().nullable().describe('what the plan gives for the coils as they were joined'),
  measured: z.number(),
  differsPct: z.number().nullable(),
  agrees: z.boolean().nullable(),
});

const values = { reOhm: z.number(), fsHz: z.number(), qms: z.number(), qes: z.number(), qts: z.number() };

const read = z.object({
  schema: z.literal('kickpanel.impedance/1'),
  usable: z.literal(true),
  driver: z.object({
    ...values,
    mostOhm: z.number().describe('the top of the peak'),
    leMh: z.number().describe('of the coil as it acts at 1 kHz'),
    sigmaPct: z.object({ reOhm: z.number(), fsHz: z.number(), qts: z.number() }),
    fitErrorPct: z.number(),
  }),
  sheet: z.object(values).describe('the same as the sheet of one coil would write it'),
  againstPlan: z
    .object({
      values: z.array(compared),
      verdict: z.enum(['agrees', 'differs', 'nothing-to-compare']),
      says: z.string(),
    })
    .optional(),
  curve: z.object({ fHz: z.array(z.number()), ohm: z.array(z.number()), phaseDeg: z.array(z.number()) }),
});

const refusal = z.object({
  schema: z.literal('kickpanel.impedance/1'),
  usable: z.literal(false),
  problem: z.object({
    code: z.string(),
    message: z.string(),
    where: z.string().optional(),
    mend: z.string().optional(),
  }),
});

/** The answer of `impedance`; tests hold real answers against it. */
export const impedanceAnswerSchema = z.union([read, refusal]);

export const impedanceJsonSchema = () => ({
  ...z.toJSONSchema(impedanceAnswerSchema),
  type: 'object',
  title: 'the answer of impedance',
});
