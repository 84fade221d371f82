// What every plot of a reading is told beside the reading: how numbers are written, and where the take was made.
import type { NumberStyle } from '../number-words.ts';

export interface ReadingPlotOptions {
  style: NumberStyle;
  /** What played and where the microphone stood: "Left door, driver's seat". */
  subject: string;
  /** Range of the frequency axis, Hz. */
  rangeHz: { from: number; to: number };
}

/** The whole range of hearing, so that plots of different drivers stand under each other. */
export const hearingHz = { from: 20, to: 20_000 };
