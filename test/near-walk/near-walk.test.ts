// A dozen simulated cars with none to three faults at 20 dB over the noise: what is named was planted.
import { expect, test } from 'vitest';
import { nearTake } from '../../src/measurement/near-field/near-take.ts';
import { renderNearTakes, nearWalk as simulatedWalk } from '../../src/practice/near-field/render-near-takes.ts';
import { recordingFromArrays } from '../../src/signals/recording.ts';
import { designTrack } from '../../src/signals/track-design/design-track.ts';
import { nearPlanSchema } from '../../src/wiring/near-plan.ts';
import { nearWalk } from '../../src/wiring/near-walk.ts';
import { outcomeOf } from './outcome.ts';

const RATE_HZ = 32_000;

/** Twice what it takes with both cores busy. */
const LONGEST_MS = 240_000;

test('no fault is named that was not planted, and most that were are named', { timeout: LONGEST_MS }, () => {
  const designed = designTrack({ kind: 'near', rateHz: RATE_HZ, stimulusS: 1 });
  if (!designed.ok) throw new Error(designed.issues[0].message);
  const track = designed.value;
  const outcomes = Array.from({ length: 12 }, (_, index) => {
    const seed = 300 + index;
    const walk = simulatedWalk(seed, seed % 4);
    const takes = renderNearTakes({ walk, track, snrDb: 20, recorder: { rateHz: RATE_HZ } });
    const read = takes.map(({ place, samples, rateHz }) => {
      return [place, nearTake(recordingFromArrays([samples], rateHz, 2 ** -23), track)] as const;
    });
    const answer = nearWalk(nearPlanSchema.parse(walk.plan), new Map(read));
    return { seed, faults: walk.truth.faults, ...outcomeOf(walk, answer) };
  });
  expect(outcomes.filter(({ falsePlaces }) => falsePlaces.length > 0)).toEqual([]);
  expect(outcomes.filter(({ named }) => named === 'wrong')).toEqual([]);
  expect(outcomes.filter(({ faults, falseStops }) => faults.length === 0 && falseStops.length > 0)).toEqual([]);
  const share = (...words: string[]) => outcomes.filter(({ named }) => words.includes(named)).length / outcomes.length;
  expect(share('alone', 'among')).toBeGreaterThanOrEqual(0.9);
  expect(share('alone')).toBeGreaterThanOrEqual(0.6);
});
