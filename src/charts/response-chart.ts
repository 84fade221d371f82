// A frequency response as a whole SVG document: one curve, the range that may not be relied on tinted, one sentence.
import { frequencyAxis, levelAxis } from './axes.ts';
import { plotDocument } from './plot-document.ts';
import { stretchesOf } from './runs.ts';

export interface ResponseChart {
  /** Rising, > 0. */
  fHz: number[];
  /** null: nothing to draw. */
  levelDb: (number | null)[];
  /** Whether the level may be relied on. */
  valid: boolean[];
  /** What is to be seen, in one sentence; it is the text alternative too. */
  sentence: string;
  /** What, where, how smoothed: the state under which it holds. */
  state: string;
  /** Ends of the pass band to be marked, Hz. */
  marksHz: number[];
  widthPx: number;
  heightPx: number;
}

/**
 * The chart as SVG text.
 *
 * @param chart equally long arrays, at least two frequencies; not changed
 * @returns a whole SVG document without references to anything outside it; the same chart gives the same text
 * @throws RangeError fewer than two frequencies, or a size that leaves no room: the caller's mistake
 */
export function responseChart(chart: ResponseChart): string {
  const { fHz, levelDb, valid, sentence, state, widthPx, heightPx } = chart;
  if (fHz.length < 2) throw new RangeError(`a response chart needs 2 frequencies or more, got ${fHz.length}`);
  const trusted = levelDb.filter((level, index) => level !== null && valid[index]);
  const marks = chart.marksHz.flatMap((mark) => {
    const nearest = fHz.reduce((best, f, i) => (Math.abs(f - mark) < Math.abs(fHz[best] - mark) ? i : best), 0);
    const y = levelDb[nearest];
    return y === null ? [] : [{ x: fHz[nearest], y, role: 'plain' as const, label: '' }];
  });
  return plotDocument(
    {
      sentence,
      state,
      x: frequencyAxis(fHz[0], fHz[fHz.length - 1]),
      y: levelAxis(trusted.length > 0 ? trusted : levelDb),
      tints: stretchesOf(fHz, (index) => !valid[index]),
      curves: [{ role: 'measured', x: fHz, y: levelDb }],
      marks,
    },
    { widthPx, heightPx },
  );
}
