// Axes as data: where they begin and end, which lines and labels they carry.
import { type NumberStyle, plainNumbers } from './number-words.ts';

export interface AxisTick {
  value: number;
  text: string;
  /** Left out where there is no room. */
  minor?: boolean;
}

export interface PlotAxis {
  scale: 'log' | 'linear';
  from: number;
  to: number;
  lines: { value: number; major: boolean }[];
  ticks: AxisTick[];
  /** A line drawn stronger than the others. */
  zero?: number;
}

const labelledHz = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000];
/** Labels that stay under 430 px. */
const labelledNarrowHz = [20, 100, 1000, 10_000];

function hzTick(fHz: number, style: NumberStyle): string {
  return fHz >= 1000 ? `${String(fHz / 1000).replace('.', style.decimal)}k` : String(fHz).replace('.', style.decimal);
}

/**
 * Frequency from `fromHz` to `toHz`, logarithmic: fine lines at each step of 1 to 9, the unit on the first label alone.
 *
 * @throws RangeError unless 0 < fromHz < toHz: the caller's mistake
 */
export function frequencyAxis(fromHz: number, toHz: number, style: NumberStyle = plainNumbers): PlotAxis {
  if (!(fromHz > 0 && toHz > fromHz)) throw new RangeError(`an axis needs 0 < from < to, got ${fromHz}..${toHz} Hz`);
  const inside = (fHz: number) => fHz >= fromHz * (1 - 1e-9) && fHz <= toHz * (1 + 1e-9);
  const lines: PlotAxis['lines'] = [];
  for (let decade = Math.floor(Math.log10(fromHz)); decade <= Math.log10(toHz); decade++) {
    for (let step = 1; step <= 9; step++) {
      const value = Number(`${step}e${decade}`);
      if (inside(value)) lines.push({ value, major: labelledHz.includes(value) });
    }
  }
  const labelled = labelledHz.filter(inside);
  // Less than two labels would leave the axis without a scale; then every line within reach carries one.
  const chosen = labelled.length >= 2 ? labelled : lines.map(({ value }) => value);
  const thinnable = chosen.filter((fHz) => labelledNarrowHz.includes(fHz)).length >= 2;
  const ticks = chosen.map((value, index) => ({
    value,
    text: index === 0 ? `${hzTick(value, style)} Hz` : hzTick(value, style),
    ...(thinnable && index > 0 && !labelledNarrowHz.includes(value) ? { minor: true } : {}),
  }));
  return { scale: 'log', from: fromHz, to: toHz, lines, ticks };
}

export interface LinearAxisWish {
  from: number;
  to: number;
  step: number;
  unit: string;
  /** Where the unit stands: the label of the least or of the greatest value. */
  unitAt: 'first' | 'last';
  zero?: number;
  /** A plus sign before what is above zero: for differences. */
  signed?: boolean;
  style?: NumberStyle;
}

/** A linear axis with a line and a label at each step. */
export function linearAxis(wish: LinearAxisWish): PlotAxis {
  const { from, to, step, unit, unitAt, style = plainNumbers } = wish;
  if (!(to > from && step > 0 && (to - from) / step <= 200)) {
    throw new RangeError(`an axis needs from < to and at most 200 steps, got ${from}..${to} by ${step}`);
  }
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const values = Array.from({ length: last - first + 1 }, (_, n) => Number(((first + n) * step).toFixed(decimals + 2)));
  const ticks = values.map((value, index) => {
    const sign = value < 0 ? '\u2212' : value > 0 && wish.signed ? '+' : '';
    const text = sign + Math.abs(value).toFixed(decimals).replace('.', style.decimal);
    const carriesUnit = unitAt === 'first' ? index === 0 : index === values.length - 1;
    return { value, text: carriesUnit ? `${text} ${unit}` : text };
  });
  const axis: PlotAxis = { scale: 'linear', from, to, lines: values.map((value) => ({ value, major: true })), ticks };
  return wish.zero === undefined ? axis : { ...axis, zero: wish.zero };
}

/** Percent on a logarithmic axis, labelled 1 and 3 in each decade. */
export function percentAxis(fromPct: number, toPct: number, style: NumberStyle = plainNumbers): PlotAxis {
  if (!(fromPct > 0 && toPct > fromPct))
    throw new RangeError(`an axis needs 0 < from < to, got ${fromPct}..${toPct} %`);
  const values: number[] = [];
  for (let decade = Math.floor(Math.log10(fromPct)); decade <= Math.log10(toPct); decade++) {
    for (const step of [1, 3]) values.push(Number(`${step}e${decade}`));
  }
  const inside = values.filter((value) => value >= fromPct * (1 - 1e-9) && value <= toPct * (1 + 1e-9));
  return {
    scale: 'log',
    from: fromPct,
    to: toPct,
    lines: inside.map((value) => ({ value, major: true })),
    ticks: inside.map((value) => ({ value, text: `${String(value).replace('.', style.decimal)} %` })),
  };
}

/**
 * A level axis that holds `levels`: its top the next multiple of 10 dB, at least `spanMinDb` high, so that a flat driver
 * does not look like a rough one.
 */
export function levelAxis(
  levels: Iterable<number | null>,
  options: { spanMinDb?: number; spanMaxDb?: number; unit?: string; style?: NumberStyle } = {},
): PlotAxis {
  const { spanMinDb = 50, spanMaxDb = 80, unit = 'dB', style = plainNumbers } = options;
  let highest = Number.NEGATIVE_INFINITY;
  let lowest = Number.POSITIVE_INFINITY;
  for (const level of levels) {
    if (level === null || !Number.isFinite(level)) continue;
    if (level > highest) highest = level;
    if (level < lowest) lowest = level;
  }
  if (highest === Number.NEGATIVE_INFINITY) [highest, lowest] = [-1, -1];
  const to = Math.ceil((highest + 1) / 10) * 10;
  const wanted = Math.min(to - spanMinDb, Math.floor(lowest / 10) * 10);
  const from = Math.max(wanted, to - spanMaxDb);
  return linearAxis({ from, to, step: 10, unit, unitAt: 'last', style });
}
