// Levels added, and weighted as the ear hears them.
import { calculation } from '../../base/calculation.ts';
import { list, number } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';
import { weightingDb } from '../weighting.ts';
import { levelMaxDb } from './allowance.ts';

/**
 * Level of independent sounds together, dB.
 *
 * @param levelsDb one or more
 * Source: powers add.
 * @example combineLevels([90, 90]) // 93.01
 */
export function combineLevels(levelsDb: readonly number[]): number {
  const loudest = levelsDb.reduce((most, level) => Math.max(most, level), Number.NEGATIVE_INFINITY);
  return loudest + 10 * Math.log10(levelsDb.reduce((sum, level) => sum + 10 ** ((level - loudest) / 10), 0));
}

/**
 * A-weighted and flat level of a sound known by bands.
 *
 * @param freqsHz  band centres, 0.001 .. 10 000 000; @param levelsDb one level per band
 * @returns refused as `contradiction` where the lists differ in length
 * Source: IEC 61672-1:2013, annex E.
 */
export function bandsToDba(
  freqsHz: readonly number[],
  levelsDb: readonly number[],
): Result<{ dba: number; flatDb: number }> {
  if (freqsHz.length !== levelsDb.length) {
    const message = `There are ${freqsHz.length} frequencies and ${levelsDb.length} levels.`;
    return refused('contradiction', 'levelsDb', message, 'Give one level for each frequency.');
  }
  const weighted = levelsDb.map((level, i) => level + weightingDb('A', freqsHz[i]));
  return success({ dba: combineLevels(weighted), flatDb: combineLevels(levelsDb) });
}

const frequency = number('Hz', { min: 1e-3, max: 1e7 });
const level = number('dB', { max: levelMaxDb });

export const combineLevelsCalculation = calculation({
  name: 'combineLevels',
  about: 'level of independent sounds together',
  inputs: { levelsDb: list(level) },
  answer: ({ levelsDb }) => success({ db: combineLevels(levelsDb) }),
});

export const aWeightCalculation = calculation({
  name: 'aWeight',
  about: 'A-weighting at a frequency',
  inputs: { freqHz: frequency },
  answer: ({ freqHz }) => success({ db: weightingDb('A', freqHz) }),
});

export const bandsToDbaCalculation = calculation({
  name: 'bandsToDba',
  about: 'A-weighted level of a sound known by bands',
  caution: 'Bass is light in dBA and still felt: keep the peak limit too.',
  inputs: { freqsHz: list(frequency), levelsDb: list(level) },
  answer: ({ freqsHz, levelsDb }) => bandsToDba(freqsHz, levelsDb),
});
