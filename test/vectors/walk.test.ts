// Puzzles of swapped, open, muted and reversed leads: all least explanations, and the best next test.
import { describe, expect, test } from 'vitest';
import { channelWalk } from '../../src/wiring/walk.ts';
import { type WalkRequest, walkSchema } from '../../src/wiring/walk-request.ts';
import vectors from './walk.json' with { type: 'json' };

type Puzzle = (typeof vectors.puzzles)[number];

const sides: Record<string, string> = { L: 'left', R: 'right', both: 'both' };

function request({ plan, observations }: Puzzle, answers: WalkRequest['answers'] = []): WalkRequest {
  return walkSchema.parse({
    plan: {
      outputs: plan.outputs.map(({ id, in1, in2, planned_amp, planned_place }) => ({
        id,
        in1,
        in2,
        amp: planned_amp,
        place: planned_place,
      })),
      reversibleInputs: plan.reversible_inputs,
    },
    observations: observations.map(({ side, outputs, heard }) => ({ side: sides[side], outputs, heard })),
    answers,
  });
}

const asSets = (sets: string[][]): string[] => sets.map((set) => [...set].sort().join(' ')).sort();

describe.each(vectors.puzzles)('puzzle $id', (puzzle) => {
  const { expect: truth } = puzzle;

  test(`costs ${truth.min_cost}, ${truth.status}`, () => {
    const answer = channelWalk(request(puzzle));
    expect(answer.minCost).toBe(truth.min_cost);
    expect(answer.unexplained).toBe(truth.status === 'unexplained');
    expect(asSets(answer.explanations.map(({ faults }) => faults))).toEqual(asSets(truth.explanations));
    if (Array.isArray(truth.next_best)) {
      expect(answer.nextTests).toEqual([]);
      return;
    }
    const [next] = answer.nextTests;
    expect(truth.next_best.any_of).toContain(next.test);
    expect(Math.abs(next.valueBits / next.cost - truth.next_best.value)).toBeLessThan(vectors.valueTolerance);
    const { follow_up: followUp } = truth as { follow_up?: { test: string; outcome: string; remaining: string[][] } };
    if (!followUp) return;
    const { test, outcome, remaining } = followUp;
    const after = channelWalk(request(puzzle, [{ test, outcome }]));
    expect(asSets(after.explanations.map(({ faults }) => faults))).toEqual(asSets(remaining));
  });
});
