// The plan of a job as a near walk takes it: its channels with their filters, the kind of driver behind each, and what it bears.
import type { Issue } from '../../base/result.ts';
import type { PartOf, Plan } from '../../plan/plan.ts';
import { type NearPlan, type NearPlanOutput, nearPlanContradictions } from '../../wiring/near-plan.ts';
import { type WalkedChannel, type WalkOfJob, walkOfPlan } from '../../wiring/plan-of-job.ts';

export interface NearPlanOfJob {
  walk: WalkOfJob;
  plan: NearPlan;
  /** What does not fit together in the plan; nothing can be read against it until that is mended. */
  issues: Issue[];
}

/** Drivers of several kinds on one channel, or behind a passive crossover, are heard as one that plays all of it. */
function kindOf({ drivers }: WalkedChannel): string | undefined {
  const kinds = new Set(drivers.flatMap(({ kind }) => (kind === undefined ? [] : [kind])));
  const [only] = kinds;
  return kinds.size > 1 ? 'full-range' : only;
}

type Edge = NonNullable<PartOf<'channel'>['highPass']>;
const edgeOf = (edge: Edge | null | undefined): NearPlanOutput['highPass'] => edge ?? null;

function outputOf(plan: Plan, walk: WalkOfJob, n: number): NearPlanOutput {
  const walked = walk.channels[n];
  const channel = plan.channel.find(({ id }) => id === walked.id);
  const load = plan.load.find(({ amplifier }) => amplifier === walked.amplifier);
  const kind = kindOf(walked);
  const bears = walked.drivers.flatMap(({ minimumHighPassHz }) => minimumHighPassHz ?? []);
  const { id, in1 = 0, in2 = 0, amp, place } = walk.plan.outputs[n];
  return {
    id,
    in1,
    in2,
    amp,
    place,
    ...(kind === undefined ? {} : { kind }),
    polarity: (channel?.polarity ?? 1) * (load?.polarity ?? 1) < 0 ? -1 : 1,
    highPass: edgeOf(channel?.highPass),
    lowPass: edgeOf(channel?.lowPass),
    // A passive crossover holds back from its tweeter what the channel is not asked to.
    ...(bears.length > 0 && load?.passive === undefined ? { safeHighPassHz: Math.max(...bears) } : {}),
  };
}

/**
 * The near walk's plan of a job's plan.
 *
 * @returns outputs in the order of the plan's channels, called by the channel, places by their ids
 */
export function nearPlanOfJob(plan: Plan): NearPlanOfJob {
  const walk = walkOfPlan(plan);
  const outputs = walk.channels.map((_, n) => outputOf(plan, walk, n));
  const near: NearPlan = { outputs, reversibleInputs: walk.plan.reversibleInputs };
  return { walk, plan: near, issues: outputs.length === 0 ? [] : nearPlanContradictions(near) };
}
