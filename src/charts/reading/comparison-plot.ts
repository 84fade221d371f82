// Takes over each other, and the difference of two: after less before, on one grid.
import type { Reading } from '../../measurement/reading.ts';
import { frequencyAxis, levelAxis, linearAxis } from '../axes.ts';
import { fixedText, frequencyText, signedText } from '../number-words.ts';
import type { CurveRole, PlotSpec } from '../plot-spec.ts';
import type { CurvePoint } from './curve-features.ts';
import type { ReadingPlotOptions } from './plot-options.ts';

/** A reading with the name it goes by. */
export interface NamedReading {
  name: string;
  reading: Reading;
}

/** Two curves: before thin, after strong. More: as many colours as are told apart. */
const manyRoles: CurveRole[] = ['measured', 'lead-1', 'lead-2', 'lead-3'];
export const comparedMax = manyRoles.length;

export interface Difference {
  fHz: number[];
  /** After less before, dB; null where either may not be relied on. */
  levelDb: (number | null)[];
}

const sameShare = 1e-6;

/** The difference of two responses at the frequencies that both have; null where they share fewer than two. */
export function responseDifference(before: Reading, after: Reading): Difference | null {
  const a = before.response;
  const b = after.response;
  if (!a || !b) return null;
  const fHz: number[] = [];
  const levelDb: (number | null)[] = [];
  let at = 0;
  b.fHz.forEach((f, i) => {
    while (at < a.fHz.length && a.fHz[at] < f * (1 - sameShare)) at++;
    if (at >= a.fHz.length || a.fHz[at] > f * (1 + sameShare)) return;
    const [was, is] = [a.levelDb[at], b.levelDb[i]];
    fHz.push(f);
    levelDb.push(was !== null && is !== null && a.valid[at] && b.valid[i] ? is - was : null);
  });
  return fHz.length < 2 ? null : { fHz, levelDb };
}

/** The largest rise and the deepest fall of a difference, each at least `leastDb`; the larger one first. */
export function differenceFeatures({ fHz, levelDb }: Difference, leastDb: number): CurvePoint[] {
  const highest: CurvePoint = { fHz: 0, value: 0 };
  const lowest: CurvePoint = { fHz: 0, value: 0 };
  levelDb.forEach((value, i) => {
    if (value === null) return;
    if (value > highest.value) Object.assign(highest, { fHz: fHz[i], value });
    if (value < lowest.value) Object.assign(lowest, { fHz: fHz[i], value });
  });
  return [highest, lowest]
    .filter(({ fHz: at, value }) => at > 0 && Math.abs(value) >= leastDb)
    .sort((p, q) => Math.abs(q.value) - Math.abs(p.value));
}

/** What the difference says, in one sentence. `repeatDb`: what is under it is not told apart. */
export function differenceSentence(
  difference: Difference,
  repeatDb: number,
  { style }: Pick<ReadingPlotOptions, 'style'>,
): string {
  const parts = differenceFeatures(difference, repeatDb).map(({ fHz, value }) => {
    const size = fixedText(Math.abs(value), 1, style);
    return `${size} dB ${value > 0 ? 'more' : 'less'} at ${frequencyText(fHz, style)}`;
  });
  if (parts.length === 0) return `Nothing differs by more than ${fixedText(repeatDb, 1, style)} dB.`;
  return `The later take has ${parts.join(' and ')}.`;
}

/** All takes on one pair of axes; null where none carries a response. */
export function overlayPlot(takes: readonly NamedReading[], options: ReadingPlotOptions): PlotSpec | null {
  const shown = takes.filter(({ reading }) => reading.response !== undefined).slice(0, comparedMax);
  if (shown.length === 0) return null;
  const roles: CurveRole[] = shown.length === 2 ? ['before', 'measured'] : manyRoles;
  const { style, rangeHz } = options;
  const levels = shown.flatMap(({ reading: { response } }) =>
    (response?.levelDb ?? []).filter((_, i) => response?.valid[i]),
  );
  return {
    sentence: `${shown.length === 1 ? 'One take' : `${shown.length} takes`}: ${shown.map(({ name }) => name).join('; ')}.`,
    state: options.subject,
    x: frequencyAxis(rangeHz.from, rangeHz.to, style),
    y: levelAxis(levels, { style, spanMinDb: 40 }),
    curves: shown.map(({ name, reading: { response } }, i) => ({
      role: roles[i],
      label: name,
      x: response?.fHz ?? [],
      y: (response?.levelDb ?? []).map((level, n) => (response?.valid[n] ? level : null)),
    })),
  };
}

/** The difference, with the range that is not told apart; null where there is none. */
export function differencePlot(
  before: NamedReading,
  after: NamedReading,
  repeatDb: number,
  options: ReadingPlotOptions,
): PlotSpec | null {
  const difference = responseDifference(before.reading, after.reading);
  if (!difference) return null;
  const { style, rangeHz } = options;
  const inside = difference.levelDb.filter(
    (value, i): value is number =>
      value !== null && difference.fHz[i] >= rangeHz.from && difference.fHz[i] <= rangeHz.to,
  );
  const most = inside.reduce((top, value) => Math.max(top, Math.abs(value)), 6);
  const step = most <= 9 ? 3 : most <= 20 ? 5 : 10;
  const end = Math.min(Math.ceil(most / step), 8) * step;
  return {
    sentence: differenceSentence(difference, repeatDb, options),
    state: `${after.name} less ${before.name}. ${options.subject}`,
    x: frequencyAxis(rangeHz.from, rangeHz.to, style),
    y: linearAxis({ from: -end, to: end, step, unit: 'dB', unitAt: 'last', zero: 0, signed: true, style }),
    zones: [{ from: -repeatDb, to: repeatDb, label: `less than ${fixedText(repeatDb, 0, style)} dB apart` }],
    curves: [{ role: 'measured', x: difference.fHz, y: difference.levelDb }],
    marks: differenceFeatures(difference, repeatDb)
      .filter(({ fHz }) => fHz >= rangeHz.from && fHz <= rangeHz.to)
      .map(({ fHz, value }) => ({
        x: fHz,
        y: value,
        role: 'plain',
        label: `${signedText(value, 1, style)} dB, ${frequencyText(fHz, style)}`,
      })),
  };
}
