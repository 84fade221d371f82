// Phase with the driver's own arrival removed, wrapped at half a turn.
import type { Reading } from '../../measurement/reading.ts';
import { frequencyAxis, linearAxis } from '../axes.ts';
import { frequencyText, signedText } from '../number-words.ts';
import type { PlotSpec } from '../plot-spec.ts';
import { stretchesOf } from '../runs.ts';
import { nearestIndex } from './curve-features.ts';
import type { ReadingPlotOptions } from './plot-options.ts';

/** A gap where the wrapped curve jumps, so that no upright line is drawn there. */
function withoutJumps(phaseDeg: readonly (number | null)[]): (number | null)[] {
  return phaseDeg.map((phase, i) => {
    const before = phaseDeg[i - 1];
    return phase !== null && before !== undefined && before !== null && Math.abs(phase - before) > 180 ? null : phase;
  });
}

/** The middle of the band that the driver plays, Hz; the middle of the grid where no band was found. */
function middleHz(reading: Reading, fHz: readonly number[]): number {
  const low = reading.band?.lowHz ?? fHz[0];
  const high = reading.band?.highHz ?? fHz[fHz.length - 1];
  return Math.sqrt(low * high);
}

export function phaseSentence(reading: Reading, { style }: Pick<ReadingPlotOptions, 'style'>): string {
  const { response } = reading;
  if (!response) return 'There is no phase to show.';
  const at = nearestIndex(response.fHz, middleHz(reading, response.fHz));
  const phase = response.phaseDeg[at];
  if (phase === null || !response.valid[at]) return 'The phase may not be relied on in the middle of the band.';
  return `Phase in the middle of the band, at ${frequencyText(response.fHz[at], style)}, is ${signedText(phase, 0, style)} degrees.`;
}

/** @returns null where the take carries no phase */
export function phasePlot(reading: Reading, options: ReadingPlotOptions): PlotSpec | null {
  const { response } = reading;
  if (!response || response.fHz.length < 2 || response.phaseDeg.every((phase) => phase === null)) return null;
  const { style, subject, rangeHz } = options;
  const trusted = response.phaseDeg.map((phase, i) => (response.valid[i] ? phase : null));
  return {
    sentence: phaseSentence(reading, options),
    state: `${subject}. Degrees, the driver's own arrival removed. Tinted: not to be relied on.`,
    x: frequencyAxis(rangeHz.from, rangeHz.to, style),
    y: linearAxis({ from: -180, to: 180, step: 90, unit: 'deg', unitAt: 'last', zero: 0, signed: true, style }),
    tints: stretchesOf(response.fHz, (i) => !response.valid[i]),
    curves: [{ role: 'measured', x: response.fHz, y: withoutJumps(trusted) }],
  };
}
