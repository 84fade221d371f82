// From recorded full scale to what the ear would have got: the microphone's deviation and the level calibration.
import { deviationAt } from './microphone-calibration.ts';
import type { ReadOptions } from './reading.ts';

/** A full-scale sine reads this, dB re a full-scale square. */
const SINE_DB = -3.0103;

/**
 * What to add to a response level at a frequency, dB.
 *
 * Without calibration levels are recorded full scale per played full scale. With `fullScaleSplDb` they are the sound
 * pressure level of a sine that the track plays at `levelDbfs`: recorded level re a full-scale square plus what such a
 * square reads.
 */
export function levelCorrectionDb(options: ReadOptions, levelDbfs: number): (fHz: number) => number {
  const offset = options.fullScaleSplDb === undefined ? 0 : options.fullScaleSplDb + levelDbfs + SINE_DB;
  const { microphone } = options;
  if (!microphone) return () => offset;
  const calibration = { ...microphone, notes: [] };
  return (fHz) => offset - deviationAt(calibration, fHz).deviationDb;
}
