// How the values of a plot are said: at the cursor and in the table behind it.
import { fixedText, frequencyText, type NumberStyle, percentText } from '../../charts/number-words.ts';
import type { PlotCurve, PlotSpec } from '../../charts/plot-spec.ts';

export interface Readout {
  /** Heading of the first column of the table. */
  xName: string;
  x: (value: number) => string;
  y: (value: number) => string;
  /** Where the table reads the curves. */
  tableAt: readonly number[];
}

const thirdOctavesHz = Array.from({ length: 31 }, (_, n) => 1000 * 10 ** ((n - 17) / 10));
const milliseconds = Array.from({ length: 57 }, (_, n) => -2 + n / 4);

const overFrequency = (style: NumberStyle): Pick<Readout, 'xName' | 'x' | 'tableAt'> => ({
  xName: 'Frequency',
  x: (value) => frequencyText(value, style),
  tableAt: thirdOctavesHz,
});

export const levelReadout = (style: NumberStyle, unit = 'dB'): Readout => ({
  ...overFrequency(style),
  y: (value) => `${fixedText(value, 1, style)} ${unit}`,
});

/** Travel of a cone. */
export const millimetreReadout = (style: NumberStyle): Readout => unitReadout(style, 'mm', 2);

/** Another unit with a fixed count of decimals. */
export const unitReadout = (style: NumberStyle, unit: string, decimals: number): Readout => ({
  ...overFrequency(style),
  y: (value) => `${fixedText(value, decimals, style)} ${unit}`,
});

export const percentReadout = (style: NumberStyle): Readout => ({
  ...overFrequency(style),
  y: (value) => percentText(value, style),
});

export const phaseReadout = (style: NumberStyle): Readout => ({
  ...overFrequency(style),
  y: (value) => `${fixedText(value, 0, style)} degrees`,
});

export const impulseReadout = (style: NumberStyle): Readout => ({
  xName: 'After the direct sound',
  x: (value) => `${fixedText(value, 2, style)} ms`,
  y: (value) => `${fixedText(value, 1, style)} %`,
  tableAt: milliseconds,
});

/** The value of a curve at the grid place nearest to `x`; null where it has none within reach. */
export function curveValueAt(curve: PlotCurve, x: number, scale: 'log' | 'linear'): number | null {
  const distance = (value: number) => Math.abs(scale === 'log' ? Math.log(value / x) : value - x);
  let best = -1;
  for (let i = 0; i < curve.x.length; i++) {
    if (best < 0 || distance(curve.x[i]) < distance(curve.x[best])) best = i;
  }
  if (best < 0) return null;
  // Half a grid step beyond the end is still the end; further out there is nothing.
  const near = scale === 'log' ? distance(curve.x[best]) < 0.06 : distance(curve.x[best]) < 0.2;
  const value = curve.y[best];
  return near && value !== null && Number.isFinite(value) ? value : null;
}

export interface PlotTable {
  names: string[];
  rows: { x: number; values: (number | null)[] }[];
}

/** The numbers behind a plot, at a few places; rows in which nothing is known are left out. */
export function plotTable(spec: PlotSpec, readout: Readout): PlotTable {
  const names = spec.curves.map(({ label }) => label ?? 'Value');
  const rows = readout.tableAt
    .filter((x) => x >= spec.x.from * (spec.x.scale === 'log' ? 0.95 : 1) && x <= spec.x.to)
    .map((x) => ({ x, values: spec.curves.map((curve) => curveValueAt(curve, x, spec.x.scale)) }))
    .filter(({ values }) => values.some((value) => value !== null));
  return { names, rows };
}
