// A channel walk, answered: what is wired wrongly, or which test tells.
import { doubtfulObservation, type Explanation, explanations } from './explanations.ts';
import { type NextTest, nextTests, outcomeOf } from './next-tests.ts';
import type { Observation, WalkPlan, WalkRequest } from './walk-request.ts';

export interface WalkAnswer {
  status: 'as planned' | 'explained' | 'tie' | 'unexplained';
  explanations: { faults: string[]; cost: number }[];
  minCost: number | null;
  /** Nothing plausible makes it sound like that. */
  unexplained: boolean;
  nextTests: NextTest[];
  /** Where unexplained: the observation, counted from 0, without which the rest has an explanation. */
  doubtful: number | null;
  remarks: string[];
  /** Places whose polarity nothing has told yet. */
  notProven: string[];
}

/** A car of fewer places is not told from leads that were turned over one by one. */
const WHOLE_PLACES = 3;

/** Every place of the plan heard the other way round: one fault at the source or the recorder, not one at each lead. */
function turnedAsWhole({ outputs }: WalkPlan, observations: Observation[]): boolean {
  const told = observations.flatMap(({ heard }) => heard).filter(({ polarity }) => polarity !== '?');
  const places = new Set(told.map(({ place }) => place)).size;
  return told.every(({ polarity }) => polarity === '-') && places === outputs.length && places >= WHOLE_PLACES;
}

const turned = (observations: Observation[]): Observation[] =>
  observations.map((observation) => ({
    ...observation,
    heard: observation.heard.map(({ place, polarity }) => ({
      place,
      polarity: polarity === '-' ? ('+' as const) : polarity,
    })),
  }));

/** A small driver fed by an output meant for a larger one gets what it cannot bear. */
function danger({ outputs }: WalkPlan, observations: Observation[]): string[] {
  const found = observations.flatMap(({ outputs: played, heard }) => {
    if (played === 'all' || played.length !== 1) return [];
    const output = outputs.find(({ id }) => id === played[0]);
    return heard.flatMap(({ place }) =>
      output && place !== output.place
        ? [`${output.id} is meant for ${output.place} and sounds at ${place}: stop and turn down before anything else.`]
        : [],
    );
  });
  return [...new Set(found)];
}

function notProven({ outputs }: WalkPlan, observations: Observation[]): string[] {
  const told = new Set(
    observations.flatMap(({ heard }) => heard.filter(({ polarity }) => polarity !== '?').map(({ place }) => place)),
  );
  return outputs.map(({ place }) => place).filter((place) => !told.has(place));
}

function statusOf(left: Explanation[]): WalkAnswer['status'] {
  if (left.length === 0) return 'unexplained';
  if (left.length > 1) return 'tie';
  return left[0].faults.length === 0 ? 'as planned' : 'explained';
}

/**
 * Explains what was heard in a channel walk by the fewest wiring faults, and proposes the test that tells ties apart.
 *
 * @param walk  plan, observations, and the results of tests that were proposed
 */
export function channelWalk({ plan, observations, answers }: WalkRequest): WalkAnswer {
  const whole = turnedAsWhole(plan, observations);
  const heard = whole ? turned(observations) : observations;
  const possible = explanations(plan, heard);
  const left = possible.filter((explanation) =>
    answers.every(({ test, outcome }) => outcomeOf(plan, test, explanation) === outcome),
  );
  const remarks = danger(plan, observations);
  if (whole) {
    remarks.push(
      'Every place sounds the other way round: the source or the recorder is turned over, not every lead. Polarity is taken against that.',
    );
  }
  const doubtful = possible.length === 0 ? doubtfulObservation(plan, heard) : null;
  if (possible.length > 0 && left.length === 0) {
    remarks.push('The test results contradict what was heard: repeat the walk, or look for two places on one output.');
  }
  if (possible.length === 0) {
    remarks.push(
      doubtful === null
        ? 'Repeat the walk, and look for two places on one output: bridged or doubled leads.'
        : `Repeat observation ${doubtful + 1}: the others fit together without it.`,
    );
  }
  return {
    status: statusOf(left),
    explanations: left.map(({ faults, cost }) => ({ faults, cost })),
    minCost: left[0]?.cost ?? null,
    unexplained: left.length === 0,
    nextTests: nextTests(plan, left),
    doubtful,
    remarks,
    notProven: notProven(plan, observations),
  };
}
