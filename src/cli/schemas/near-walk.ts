// What `nearwalk` takes as a plan and what it answers, as JSON Schema.
import { z } from 'zod';
import { nearPlanSchema } from '../../wiring/near-plan.ts';

export const nearPlanJsonSchema = () => ({
  ...z.toJSONSchema(nearPlanSchema, { io: 'input' }),
  title: 'a plan of channels for a near-field walk',
});

const hz = z.number().positive().nullable();
const sign = z.union([z.literal(1), z.literal(-1), z.literal(0)]);
const filter = z
  .object({
    family: z.enum(['butterworth', 'linkwitz-riley']),
    order: z.number().int(),
    fHz: z.number().positive(),
    residualDb: z.number(),
  })
  .nullable();

const band = z.object({
  lowHz: hz,
  lowSlopeDbPerOctave: z.number().nullable(),
  highHz: hz,
  highSlopeDbPerOctave: z.number().nullable(),
  lowSlopeAtLeast: z.boolean(),
  highSlopeAtLeast: z.boolean(),
  highPass: filter,
  lowPass: filter,
});

const place = z.object({
  place: z.string(),
  side: z.enum(['left', 'right', 'both', 'none']).nullable(),
  band: band.nullable(),
  polarity: z.object({ sign, confidence: z.number(), reason: z.string(), againstPlan: sign }),
  levelDb: z.number().nullable(),
  verdict: z.enum(['as-planned', 'differs', 'cannot-say']),
  channel: z.string().nullable(),
  channels: z.array(z.object({ output: z.string(), likelihood: z.number() })),
  why: z.string(),
});

/** The answer of `nearwalk`; tests hold real answers against it. */
export const nearWalkAnswerSchema = z.object({
  schema: z.literal('kickpanel.nearwalk/1'),
  status: z.enum(['as planned', 'explained', 'tie', 'unexplained', 'nothing to go by']),
  places: z.array(place),
  explanations: z.array(z.object({ faults: z.array(z.string()), cost: z.number() })),
  minCost: z.number().nullable(),
  unexplained: z.boolean(),
  nextTests: z.array(
    z.object({
      test: z.string(),
      valueBits: z.number(),
      cost: z.number(),
      outcomes: z.array(z.object({ outcome: z.string(), explanations: z.array(z.number()) })),
    }),
  ),
  findings: z.array(
    z.object({
      code: z.literal('driver-below-its-high-pass'),
      severity: z.literal('stop'),
      place: z.string(),
      message: z.string(),
      values: z.object({ foundHz: z.number(), safeHz: z.number() }),
      clears: z.string(),
    }),
  ),
  remarks: z.array(z.string()),
  notProven: z.array(z.string()),
});

export const nearWalkJsonSchema = () => ({ ...z.toJSONSchema(nearWalkAnswerSchema), title: 'the answer of nearwalk' });
