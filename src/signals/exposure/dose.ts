// What a day of noise adds up to for one person, and what is left of it.
import { calculation } from '../../base/calculation.ts';
import { list, number, record } from '../../base/calculation-inputs.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';
import { type ExposureRule, exposureRule, levelInput, minutesPerDay, ruleInputs } from './allowance.ts';
import { allowedTime } from './allowed-time.ts';

/** A stretch of the day: level at the ear, up to 194 dBA, and 0 .. 1440 minutes. */
export interface ExposureSegment {
  levelDba: number;
  minutes: number;
}

/** `warn` from half the day's dose, `stop` from all of it. */
export type DoseState = 'ok' | 'warn' | 'stop';

/** State of a dose in percent; sums that fall short by the last binary digits still count as reached. */
export function doseState(dosePct: number): DoseState {
  const reached = (pct: number) => dosePct >= pct * (1 - 1e-12);
  return reached(100) ? 'stop' : reached(50) ? 'warn' : 'ok';
}

const minutesOf = (segments: readonly ExposureSegment[]) => segments.reduce((sum, { minutes }) => sum + minutes, 0);

/** Refuses what does not fit into one day, or null. */
function moreThanADay(segments: readonly ExposureSegment[]): Result<never> | null {
  const minutes = minutesOf(segments);
  if (minutes <= minutesPerDay * (1 + 1e-9)) return null;
  const message = `The segments last ${minutes} minutes; a day has ${minutesPerDay}.`;
  return refused('out-of-range', 'segments', message, 'Give the segments of one day.');
}

/**
 * Dose of a day in percent, its eight-hour average, and the state.
 *
 * Everything in the day counts, not only what is heard in the car, and each person has an account of their own.
 *
 * @param segments one or more, 1440 minutes together at most
 * @returns `twa8hDba` null where nothing was heard; refused as `out-of-range` above a day
 * Source: NIOSH publication 98-126 (1998), sections 1.1.2 and 1.1.3, with the exact factor exchange / log10 2 (10 rounded).
 */
export function dose(
  segments: readonly ExposureSegment[],
  rule: ExposureRule = exposureRule,
): Result<{ dosePct: number; minutes: number; twa8hDba: number | null; state: DoseState }> {
  const tooLong = moreThanADay(segments);
  if (tooLong !== null) return tooLong;
  const dosePct = segments.reduce(
    (sum, { levelDba, minutes }) => sum + (100 * minutes) / allowedTime(levelDba, rule),
    0,
  );
  const twa8hDba = dosePct > 0 ? rule.limitDba + rule.exchangeDb * Math.log2(dosePct / 100) : null;
  return success({ dosePct, minutes: minutesOf(segments), twa8hDba, state: doseState(dosePct) });
}

/**
 * Minutes left at a level after a part of the day's dose; 0 when it is spent.
 *
 * @param dosePct 0 or more
 */
export function remaining(dosePct: number, levelDba: number, rule: ExposureRule = exposureRule): number {
  return Math.max(0, 1 - dosePct / 100) * allowedTime(levelDba, rule);
}

/**
 * Energy average over the segments.
 *
 * @param segments one or more, 1440 minutes together at most
 * @returns refused as `no-solution` where they last no time at all
 * Source: ISO 1999:2013, 3.2.
 */
export function leq(segments: readonly ExposureSegment[]): Result<{ leqDb: number }> {
  const tooLong = moreThanADay(segments);
  if (tooLong !== null) return tooLong;
  const minutes = minutesOf(segments);
  if (minutes === 0) return refused('no-solution', 'segments', 'The segments last no time.', 'Give their minutes.');
  const loudest = segments.reduce((most, { levelDba }) => Math.max(most, levelDba), Number.NEGATIVE_INFINITY);
  const energy = segments.reduce((sum, s) => sum + s.minutes * 10 ** ((s.levelDba - loudest) / 10), 0);
  return success({ leqDb: loudest + 10 * Math.log10(energy / minutes) });
}

const segmentsInput = list(record({ levelDba: levelInput, minutes: number('min', { min: 0, max: minutesPerDay }) }));
const protection = 'Everyone in and near the car wears hearing protection; at 100 % it is enough for today.';

export const doseCalculation = calculation({
  name: 'dose',
  about: "share of a day's noise that one person has heard",
  caution: protection,
  inputs: { segments: segmentsInput, ...ruleInputs },
  answer: ({ segments, ...rule }) => dose(segments, rule),
});

export const remainingCalculation = calculation({
  name: 'remaining',
  about: "minutes left at a level after a part of the day's noise",
  caution: protection,
  inputs: { dosePct: number('%', { min: 0 }), levelDba: levelInput, ...ruleInputs },
  answer: ({ dosePct, levelDba, ...rule }) => success({ minutes: remaining(dosePct, levelDba, rule) }),
});

export const leqCalculation = calculation({
  name: 'leq',
  about: 'energy average of levels over time',
  inputs: { segments: segmentsInput },
  answer: ({ segments }) => leq(segments),
});
