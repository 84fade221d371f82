// How far a sine must be driven into a limit for a given distortion.
import { calculation } from '../../base/calculation.ts';
import { number } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';
import { clippedSine } from './clipped-sine.ts';

/** A square wave has 48.3 %; near it the overdrive grows without bound and says nothing any more. */
const thdMaxPct = 40;

/**
 * Overdrive that clips a sine to a given THD; the inverse of `clippedSine`, by bisection.
 *
 * @param thdPct 0 or more
 * @returns refused as `no-solution` above 40 %
 * @example overdriveForThd({ thdPct: 1 }) // overdriveDb 0.2513
 */
export function overdriveForThd({ thdPct }: { thdPct: number }): Result<{ overdriveDb: number }> {
  if (thdPct > thdMaxPct) {
    const message = `A clipped sine does not usefully reach ${thdPct} % THD; a square wave has 48.3 %.`;
    return refused('no-solution', 'thdPct', message, `Ask for ${thdMaxPct} % or less.`);
  }
  let [low, high] = [0, 40];
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (clippedSine({ overdriveDb: middle }).thdPct < thdPct) low = middle;
    else high = middle;
  }
  return success({ overdriveDb: high });
}

export const overdriveForThdCalculation = calculation({
  name: 'overdriveForThd',
  about: 'overdrive that gives a clipped sine a distortion',
  inputs: { thdPct: number('%', { min: 0 }) },
  answer: overdriveForThd,
});
