// What a channel walk starts from: the plan of the channels, and what was heard where.
import { z } from 'zod';
import type { Issue } from '../base/result.ts';

const id = z.string().trim().min(1).max(80);
const gain = z.number().min(-1000).max(1000);

const outputSchema = z.looseObject({
  id,
  /** Share of the left and of the right input in this output. */
  in1: gain,
  in2: gain,
  /** Amplifier channel that the output's signal lead is planned to feed. */
  amp: id,
  /** Where the driver sits that the amplifier channel is planned to feed. */
  place: id,
});

const heardSchema = z.object({
  place: id,
  /** Against the sound as planned, deliberate inversions taken out; `?` where it could not be told. */
  polarity: z.enum(['+', '-', '?']).default('?'),
});

const observationSchema = z.object({
  side: z.enum(['left', 'right', 'both']),
  /** The outputs that were not muted for the test. */
  outputs: z.union([z.literal('all'), z.array(id).min(1).max(24)]),
  /** Every place that sounded; all others were silent. */
  heard: z.array(heardSchema).max(24),
});

/** The form of a walk; what its names must have to do with each other is checked by `walkContradictions`. */
export const walkSchema = z.object({
  plan: z.looseObject({
    outputs: z.array(outputSchema).min(1).max(24),
    /** Whether a source lead can be turned over: balanced and high-level inputs. */
    reversibleInputs: z.boolean().default(false),
  }),
  observations: z.array(observationSchema).max(500),
  /** Results of the tests that were proposed. */
  answers: z
    .array(z.object({ test: id, outcome: id }))
    .max(100)
    .default([]),
});

const isTest = ({ outputs }: WalkPlan, test: string): boolean =>
  outputs.some(({ id, amp, place }) =>
    [`view-setting:${id}`, `probe-amp:${amp}`, `probe-lead:${place}`].includes(test),
  );

function repeated(values: string[]): string | undefined {
  return values.find((value, i) => values.indexOf(value) !== i);
}

/**
 * What does not fit together in a walk: names given twice, and names that the plan does not know.
 *
 * @returns one issue for each, with its place in the walk; `[]` where all fits
 */
export function walkContradictions({ plan, observations, answers }: WalkRequest): Issue[] {
  const { outputs } = plan;
  const issues: Issue[] = [];
  const say = (where: string, message: string, mend: string) =>
    issues.push({ code: 'walk-contradicts-itself', message, where, mend });
  for (const key of ['id', 'amp', 'place'] as const) {
    const twice = repeated(outputs.map((output) => output[key]));
    if (twice !== undefined)
      say('plan.outputs', `"${twice}" is the ${key} of two outputs.`, 'Give each output its own.');
  }
  const known = 'Use the names of plan.outputs.';
  observations.forEach(({ outputs: played, heard }, i) => {
    const strange = (played === 'all' ? [] : played).find((name) => !outputs.some(({ id }) => id === name));
    const places = heard.map(({ place }) => place);
    const nowhere = places.find((name) => !outputs.some(({ place }) => place === name));
    const twice = repeated(places);
    if (strange !== undefined) say(`observations[${i}].outputs`, `"${strange}" is no output of the plan.`, known);
    if (nowhere !== undefined) say(`observations[${i}].heard`, `"${nowhere}" is no place of the plan.`, known);
    if (twice !== undefined) say(`observations[${i}].heard`, `"${twice}" stands there twice.`, 'Name each place once.');
  });
  answers.forEach(({ test }, i) => {
    if (!isTest(plan, test)) {
      say(`answers[${i}].test`, `"${test}" is no test of this plan.`, 'Use a test as nextTests names it.');
    }
  });
  return issues;
}

export type WalkRequest = z.infer<typeof walkSchema>;
export type WalkPlan = WalkRequest['plan'];
export type Observation = WalkRequest['observations'][number];
