// How much noise a day allows: the numbers behind every warning about ears.
import { number, orElse } from '../../base/calculation-inputs.ts';

/** A level that may last eight hours, and the rise that halves the time. */
export interface ExposureRule {
  /** dBA. */
  limitDba: number;
  /** dB, above 0. */
  exchangeDb: number;
}

/** Source: NIOSH publication 98-126 (1998), recommended exposure limit. */
export const exposureRule: ExposureRule = { limitDba: 85, exchangeDb: 3 };

/** Above this no level in air is possible: the pressure would fall below nothing. */
export const levelMaxDb = 194;

export const minutesPerDay = 1440;

/** The rule as inputs of a calculation. */
export const ruleInputs = {
  limitDba: orElse(number('dBA', { max: levelMaxDb }), exposureRule.limitDba),
  exchangeDb: orElse(number('dB', { above: 0 }), exposureRule.exchangeDb),
};

export const levelInput = number('dBA', { max: levelMaxDb });
