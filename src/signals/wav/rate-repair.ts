// The sample rate is told twice, by itself and by the bytes per second.
import type { WavNote } from './wav-format.ts';

const rateMinHz = 4000;
const rateMaxHz = 768_000;
const usualRates = [8000, 11025, 12000, 16000, 22050, 24000, 32000, 44100, 48000, 88200, 96000, 176400, 192000];

/**
 * The rate to work with, and what was odd about it.
 *
 * @param rateHz     as the header states it
 * @param toldHz     what its bytes per second make of it, any number
 * @param where      the chunk, for the notes
 * @returns absent when neither lies within 4 000 .. 768 000 Hz
 */
export function repairedRate(
  rateHz: number,
  toldHz: number,
  where: string,
): { rateHz: number; notes: WavNote[] } | undefined {
  const notes: WavNote[] = [];
  const toldPossible = Number.isInteger(toldHz) && possible(toldHz);
  const mend = possible(rateHz) ? usualRates.includes(toldHz) && !usualRates.includes(rateHz) : toldPossible;
  if (!mend && !possible(rateHz)) return undefined;
  const chosenHz = mend ? toldHz : rateHz;
  if (mend) {
    notes.push({
      code: 'rate-repaired',
      message: `The header says ${rateHz} Hz, but its bytes per second say ${toldHz} Hz, which is taken.`,
      where,
      values: { rateHz, toldHz },
    });
  } else if (toldHz !== rateHz) {
    notes.push({
      code: 'rate-contradicted',
      message: `The header says ${rateHz} Hz, which is taken, but its bytes per second do not fit that.`,
      where,
    });
  }
  if (chosenHz < 8000 || chosenHz > 192_000) {
    notes.push({
      code: 'rate-implausible',
      message: `A sample rate of ${chosenHz} Hz is unusual for a measurement.`,
      where,
      values: { rateHz: chosenHz },
    });
  }
  return { rateHz: chosenHz, notes };
}

function possible(rateHz: number): boolean {
  return rateHz >= rateMinHz && rateHz <= rateMaxHz;
}
