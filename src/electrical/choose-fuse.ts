// The fuse that lets the amplifier play and saves the cable.
import { calculation } from '../base/calculation.ts';
import { choice, number, orElse } from '../base/calculation-inputs.ts';
import { refused } from '../base/refusal.ts';
import { type Result, success } from '../base/result.ts';
import { type FuseFamily, fuseFamilies, fuseFamilyNames } from './fuse-families.ts';

/** A fuse run nearer to its rating ages and heats. */
export const loadFactorDefault = 0.8;

/** Currents that differ by less are the same: 32 A / 0.8 is 40 A, whatever the last binary digit says. */
const slack = 1e-9;

export interface ChosenFuse {
  designA: number;
  fuseA: number;
  /** The largest of the family that still protects the cable. */
  largestA: number;
}

/**
 * The smallest standard rating F with expected / loadFactor <= F <= allowed current of the thinnest cable behind it.
 *
 * @param expectedA  above 0: music at the loudest duty of the job, or the maker's fuse with `loadFactor` 1
 * @param allowedA   above 0; see `allowedCurrent`
 * @param loadFactor above 0, to 1
 * @returns refused as `no-solution` where the cable is too small or no rating lies in the gap, as `unsupported` where only
 *   this family does not reach
 * Source: practice for vehicle wiring, SAE J1292 and J554; ratings in `fuseFamilies`.
 */
export function chooseFuse(given: {
  expectedA: number;
  allowedA: number;
  loadFactor: number;
  family: FuseFamily;
}): Result<ChosenFuse> {
  const { expectedA, allowedA, loadFactor, family } = given;
  const designA = expectedA / loadFactor;
  const ratings: readonly number[] = fuseFamilies[family];
  const design = designA.toPrecision(3);
  const allowed = allowedA.toPrecision(3);
  if (allowedA < designA * (1 - slack)) {
    const message = `A fuse for ${design} A is needed and the cable may carry ${allowed} A only.`;
    return refused('no-solution', 'allowedA', message, 'Take a thicker cable: no fuse saves this one and still plays.');
  }
  const [smallestA, greatestA] = [ratings[0], ratings[ratings.length - 1]];
  if (designA > greatestA * (1 + slack) || allowedA < smallestA * (1 - slack)) {
    const message = `${family} fuses go from ${smallestA} to ${greatestA} A; ${design} to ${allowed} A is asked for.`;
    const others = fuseFamilyNames.filter((other) => chosen(designA, allowedA, fuseFamilies[other]) !== null);
    const mend = others.length === 0 ? 'No family has such a fuse.' : `These do: ${others.join(', ')}.`;
    return refused('unsupported', 'family', message, mend);
  }
  const fuse = chosen(designA, allowedA, ratings);
  if (fuse === null) {
    const message = `No ${family} fuse lies between ${design} A and the ${allowed} A that the cable may carry.`;
    return refused('no-solution', 'allowedA', message, 'Take a thicker cable, or less current.');
  }
  return success({ designA, ...fuse });
}

/** The smallest and the largest rating from the design current to what the cable may carry, or null. */
function chosen(
  designA: number,
  allowedA: number,
  ratings: readonly number[],
): { fuseA: number; largestA: number } | null {
  const fitting = ratings.filter((rating) => rating >= designA * (1 - slack) && rating <= allowedA * (1 + slack));
  return fitting.length === 0 ? null : { fuseA: fitting[0], largestA: fitting[fitting.length - 1] };
}

export const chooseFuseCalculation = calculation({
  name: 'chooseFuse',
  about: 'the standard fuse that lets the amplifier play and saves the cable',
  caution: 'Fuse within 45 cm of cable from the battery; it stays out until every run is checked.',
  inputs: {
    expectedA: number('A', { above: 0 }),
    allowedA: number('A', { above: 0 }),
    loadFactor: orElse(number('', { above: 0, max: 1 }), loadFactorDefault),
    family: choice(fuseFamilyNames),
  },
  answer: chooseFuse,
});
