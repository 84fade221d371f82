// How long an ear may hear a level in one day.
import { calculation } from '../../base/calculation.ts';
import { success } from '../../base/result.ts';
import { type ExposureRule, exposureRule, levelInput, ruleInputs } from './allowance.ts';

/**
 * Minutes allowed per day: 480 / 2^((L - limit) / exchange).
 *
 * @param levelDba A-weighted, at the ear, up to 194
 * Source: NIOSH publication 98-126 (1998), section 1.1.1.
 * @example allowedTime(100) // 15
 */
export function allowedTime(levelDba: number, { limitDba, exchangeDb }: ExposureRule = exposureRule): number {
  return 480 * 2 ** ((limitDba - levelDba) / exchangeDb);
}

export const allowedTimeCalculation = calculation({
  name: 'allowedTime',
  about: 'minutes a day that an ear may hear a level',
  caution: 'Wear hearing protection; an uncalibrated level may be 10 dB wrong.',
  inputs: { levelDba: levelInput, ...ruleInputs },
  answer: ({ levelDba, ...rule }) => success({ minutes: allowedTime(levelDba, rule) }),
});
