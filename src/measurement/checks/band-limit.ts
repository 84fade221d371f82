// Was the microphone's path cut to a voice band?

import { thirdOctaves } from '../grids.ts';
import { densityBetween } from '../noise-density.ts';
import type { Check, TakeContext } from './take-context.ts';

/** Fall of the background across a cliff, dB: above, a fan's own noise falls by up to 24; below, none falls. */
const CLIFF_HIGH_DB = 27;
const CLIFF_LOW_DB = 18;
const STAYS_DB = 15;

/**
 * Frequencies between which the recorder's own path lets sound through, Hz, by the cliffs in the background.
 *
 * A crossover cuts only what the driver plays; a microphone path cuts the noise with it.
 */
export function recordedBandHz({ noiseBefore, stimulusHz }: TakeContext): { low: number | null; high: number | null } {
  if (!noiseBefore) return { low: null, high: null };
  const fHz = thirdOctaves(20, 0.46 * noiseBefore.rateHz);
  const db = fHz.map((f) => 10 * Math.log10(densityBetween(noiseBefore, f / 1.122, f * 1.122) + 1e-30));
  const middle = (from: number, to: number): number | null => {
    if (from < 0 || to >= db.length) return null;
    const part = db.slice(from, to + 1).sort((a, b) => a - b);
    return part[part.length >> 1];
  };
  let high: number | null = null;
  for (let i = 0; i < fHz.length && high === null; i++) {
    if (fHz[i] < 1000 || fHz[i] > 0.9 * stimulusHz.high) continue;
    const flank = middle(i - 2, i);
    const beyond = middle(i + 2, Math.min(i + 4, db.length - 1));
    if (flank === null || beyond === null || i + 2 >= db.length || flank - beyond < CLIFF_HIGH_DB) continue;
    if (db.slice(i + 3).every((level) => level < flank - STAYS_DB)) high = fHz[i];
  }
  let low: number | null = null;
  for (let i = fHz.length - 1; i >= 0 && low === null; i--) {
    if (fHz[i] > 1000 || fHz[i] < 1.1 * stimulusHz.low) continue;
    const flank = middle(i, i + 2);
    const beyond = middle(Math.max(0, i - 4), i - 2);
    if (flank === null || beyond === null || i < 3 || flank - beyond < CLIFF_LOW_DB) continue;
    if (db.slice(0, i - 2).every((level) => level < flank - STAYS_DB)) low = fHz[i];
  }
  return { low, high };
}

/** The background ends at a cliff inside the band of the track. */
export const bandLimited: Check = (context) => {
  const { low, high } = recordedBandHz(context);
  if (low === null && high === null) return null;
  const between =
    low !== null && high !== null
      ? `between ${low.toFixed(0)} and ${high.toFixed(0)} Hz`
      : low !== null
        ? `above ${low.toFixed(0)} Hz`
        : `below ${(high ?? 0).toFixed(0)} Hz`;
  return {
    code: 'band-limited',
    message: `The microphone’s path carries sound only ${between}: noise and signal end there together.`,
    mend: 'Record with a plain recorder app or a measuring microphone, not through a call or voice memo.',
    values: { ...(low === null ? {} : { lowHz: low }), ...(high === null ? {} : { highHz: high }) },
  };
};
