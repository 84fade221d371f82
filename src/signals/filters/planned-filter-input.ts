// A crossover filter as an input of calculations.
import { choice, number, record } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import type { Result } from '../../base/result.ts';
import type { PlannedFilter } from './crossover-level.ts';

export const filterFamilyInput = choice(['butterworth', 'linkwitz-riley']);
export const filterOrderInput = number('', { min: 1, max: 1000, whole: true });

/** A filter of a channel. */
export const plannedFilterInput = record({
  type: choice(['hp', 'lp']),
  family: filterFamilyInput,
  order: filterOrderInput,
  hz: number('Hz', { above: 0 }),
});

/** Why one of the filters cannot be: Linkwitz-Riley is two alike filters in a row. Null where all can. */
export function impossibleFilter(filters: readonly Omit<PlannedFilter, 'type' | 'hz'>[]): Result<never> | null {
  const odd = filters.findIndex(({ family, order }) => family === 'linkwitz-riley' && order % 2 !== 0);
  if (odd < 0) return null;
  const message = `A Linkwitz-Riley filter of order ${filters[odd].order} does not exist.`;
  return refused('unsupported', `filters[${odd}].order`, message, 'Give an even order: 2, 4, 6 or 8.');
}
