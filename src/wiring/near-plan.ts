// The plan of the channels as a near-field walk needs it: with what each output's filters let through.
import { z } from 'zod';
import type { Issue } from '../base/result.ts';
import { CROSSOVER_ORDERS } from '../signals/filters/crossover.ts';
import { walkContradictions, walkSchema } from './walk-request.ts';

const name = z.string().trim().min(1).max(80);
const gain = z.number().min(-1000).max(1000);

const edge = z
  .looseObject({
    family: z.enum(['butterworth', 'linkwitz-riley', 'bessel']),
    order: z.number().int().min(1).max(8),
    fHz: z.number().min(5).max(40_000),
  })
  .nullable()
  .default(null);

const output = z.looseObject({
  id: name,
  /** Share of the left and of the right input in this output. */
  in1: gain,
  in2: gain,
  amp: name,
  place: name,
  /** What kind of driver sits there, in words: tweeter, mid, midbass, coaxial, sub. */
  kind: z.string().max(80).optional(),
  /** -1 where the plan turns the output over on purpose. */
  polarity: z.union([z.literal(1), z.literal(-1)]).default(1),
  highPass: edge,
  lowPass: edge,
  /** Lowest high-pass that the driver bears, Hz; the planned one when absent. */
  safeHighPassHz: z.number().min(5).max(40_000).optional(),
});

/** The form of a plan for `nearwalk`. */
export const nearPlanSchema = z.looseObject({
  outputs: z.array(output).min(1).max(24),
  /** Whether a source lead can be turned over: balanced and high-level inputs. */
  reversibleInputs: z.boolean().default(false),
});

export type NearPlan = z.infer<typeof nearPlanSchema>;
export type NearPlanOutput = NearPlan['outputs'][number];

/** What does not fit together in a plan: names given twice, filters that do not exist, outputs that nothing feeds. */
export function nearPlanContradictions(plan: NearPlan): Issue[] {
  const issues = walkContradictions(walkSchema.parse({ plan, observations: [] })).map((issue) => ({
    ...issue,
    where: issue.where?.replace(/^plan\./, ''),
  })) as Issue[];
  plan.outputs.forEach(({ highPass, lowPass, in1, in2 }, index) => {
    for (const [key, filter] of Object.entries({ highPass, lowPass })) {
      if (!filter || CROSSOVER_ORDERS[filter.family].includes(filter.order)) continue;
      issues.push({
        code: 'plan-contradicts-itself',
        message: `A ${filter.family} filter of order ${filter.order} does not exist.`,
        where: `outputs[${index}].${key}`,
        mend: `Give one of the orders ${CROSSOVER_ORDERS[filter.family].join(', ')}.`,
      });
    }
    if (in1 === 0 && in2 === 0) {
      issues.push({
        code: 'plan-contradicts-itself',
        message: 'Nothing feeds this output: in1 and in2 are both 0.',
        where: `outputs[${index}]`,
        mend: 'Give the share of at least one input.',
      });
    }
    if (highPass && lowPass && highPass.fHz >= lowPass.fHz) {
      issues.push({
        code: 'plan-contradicts-itself',
        message: `Its high-pass (${highPass.fHz} Hz) lies above its low-pass (${lowPass.fHz} Hz).`,
        where: `outputs[${index}]`,
        mend: 'Exchange them, or mend the one that is wrong.',
      });
    }
  });
  return issues;
}
