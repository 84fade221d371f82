// What reaches the ear behind a hearing protector.
import { calculation } from '../../base/calculation.ts';
import { choice, number, orElse } from '../../base/calculation-inputs.ts';
import { success } from '../../base/result.ts';
import { type ExposureRule, exposureRule, levelMaxDb, ruleInputs } from './allowance.ts';
import { allowedTime } from './allowed-time.ts';

/** Share of the labelled noise reduction that is reached in use. `plug` is another word for `other-plug`. */
const protectorShares = { muff: 0.75, 'formable-plug': 0.5, 'other-plug': 0.3, plug: 0.3 } as const;

export type ProtectorType = keyof typeof protectorShares;

/** The label is meant to be taken from a C-weighted level; from an A-weighted one it takes this much less. */
const aWeightedLossDb = 7;

/**
 * Level at the ear behind a protector, and how long it may last.
 *
 * @param worn.nrrDb     the label's noise reduction rating, 0 or more
 * @param worn.levelDb   up to 194; @param worn.weighting of that level
 * @returns `reductionDb` 0 or more
 * Source: NIOSH publication 98-126 (1998), section 6.2.2: derating by 25, 50 and 70 %.
 */
export function protectedLevel(
  worn: { type: ProtectorType; nrrDb: number; levelDb: number; weighting: 'A' | 'C' },
  rule: ExposureRule = exposureRule,
): { reductionDb: number; atEarDba: number; allowedMinutes: number } {
  const { type, nrrDb, levelDb, weighting } = worn;
  const reductionDb = Math.max(0, protectorShares[type] * nrrDb - (weighting === 'A' ? aWeightedLossDb : 0));
  const atEarDba = levelDb - reductionDb;
  return { reductionDb, atEarDba, allowedMinutes: allowedTime(atEarDba, rule) };
}

export const protectedLevelCalculation = calculation({
  name: 'protectedLevel',
  about: 'level at the ear behind a hearing protector, and how long it may last',
  caution: 'A protector that does not fit takes off next to nothing.',
  inputs: {
    type: choice(Object.keys(protectorShares) as ProtectorType[]),
    nrrDb: number('dB', { min: 0 }),
    levelDb: number('dB', { max: levelMaxDb }),
    weighting: orElse(choice(['A', 'C']), 'A'),
    ...ruleInputs,
  },
  answer: ({ limitDba, exchangeDb, ...worn }) => success(protectedLevel(worn, { limitDba, exchangeDb })),
});
