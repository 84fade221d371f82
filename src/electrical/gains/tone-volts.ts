// What the meter must show for a test tone.
import { calculation } from '../../base/calculation.ts';
import { list, number, optional, orElse } from '../../base/calculation-inputs.ts';
import { type Refusal, refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';
import { crossoverLevelDb, type PlannedFilter } from '../../signals/filters/crossover-level.ts';
import { impossibleFilter, plannedFilterInput } from '../../signals/filters/planned-filter-input.ts';

/**
 * Volts to read for a tone: full volts * 10^((tone + overlap) / 20) * |H(f)|.
 *
 * Overlap: music rarely stays at full scale, so the amplifier may reach its limit with a tone that much below it.
 *
 * @param given.fullVolts above 0; see `targetVolts`
 * @param given.toneDbfs  to 0, re a full-scale sine
 * @param given.overlapDb 0 or more: 0 for compressed material, 3 to 5 usual, 10 risky
 * @param given.filterDb  what the channel's filters do at the tone; above 0 where it is boosted, 0 without any
 * @returns refused as `contradiction` where the tone would clip the amplifier
 * @example toneVolts({ fullVolts: 17.32, toneDbfs: -20, overlapDb: 0, filterDb: 0 }) // readVolts 1.732
 */
export function toneVolts(given: {
  fullVolts: number;
  toneDbfs: number;
  overlapDb: number;
  filterDb: number;
}): Result<{ readVolts: number; filterDb: number }> {
  const { fullVolts, toneDbfs, overlapDb, filterDb } = given;
  if (toneDbfs + overlapDb > 1e-9) {
    const message = `A tone at ${toneDbfs} dBFS would clip an amplifier set with ${overlapDb} dB of overlap.`;
    return refused('contradiction', 'toneDbfs', message, `Play the tone at ${-overlapDb} dBFS or lower.`);
  }
  return success({ readVolts: fullVolts * 10 ** ((toneDbfs + overlapDb + filterDb) / 20), filterDb });
}

/** Level of all filters together, or why there is none. */
function levelOf(filters: readonly PlannedFilter[], freqHz: number): Result<number> {
  const impossible = impossibleFilter(filters);
  if (impossible) return impossible;
  return success(filters.reduce((sum, filter) => sum + crossoverLevelDb(filter, freqHz), 0));
}

const freqMissing: Refusal = {
  code: 'missing',
  message: 'freqHz is missing: the filters need it.',
  where: 'freqHz',
  mend: 'Give freqHz: number above 0, Hz.',
};

export const toneVoltsCalculation = calculation({
  name: 'toneVolts',
  about: 'volts to read at an amplifier for a test tone',
  caution:
    'Start at -20 dBFS with the drivers unplugged; never above it at speakers before polarity and high-pass are proven.',
  inputs: {
    fullVolts: number('V', { above: 0 }),
    toneDbfs: number('dBFS', { max: 0 }),
    overlapDb: orElse(number('dB', { min: 0 }), 0),
    freqHz: optional(number('Hz', { above: 0 }), 'needed with filters only'),
    filters: optional(list(plannedFilterInput)),
  },
  alsoMissing: ({ filters, freqHz }) => (filters !== undefined && freqHz === undefined ? [freqMissing] : []),
  answer({ freqHz, filters = [], ...tone }) {
    const filterDb = freqHz === undefined ? success(0) : levelOf(filters, freqHz);
    return filterDb.ok ? toneVolts({ ...tone, filterDb: filterDb.value }) : filterDb;
  },
});
