// Times told so that a noisy machine does not mislead: median, spread, and ratios taken round by round.

export interface Spread {
  median: number;
  /** Quarter of the values lie below, a quarter above. */
  lower: number;
  upper: number;
  least: number;
}

export function spreadOf(values: number[]): Spread {
  if (values.length === 0) throw new RangeError('a spread needs values');
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  return { median: at(0.5), lower: at(0.25), upper: at(0.75), least: sorted[0] };
}

/** Times of one thing over those of another, measured next to each other. */
export function ratiosOf(values: number[], others: number[]): Spread {
  return spreadOf(values.map((value, i) => value / others[i]));
}

const digits = (value: number): string =>
  value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toPrecision(3);

/** `123 ms (110 .. 140)`: median and the middle half. */
export function told(spread: Spread, unit: string): string {
  return `${digits(spread.median)} ${unit} (${digits(spread.lower)} .. ${digits(spread.upper)})`;
}

/** Rows as a Markdown table, so that a run can be put into docs/speed.md as it is. */
export function table(rows: string[][]): string {
  const line = (cells: string[]): string => `| ${cells.join(' | ')} |`;
  return [line(rows[0]), line(rows[0].map(() => '---')), ...rows.slice(1).map(line)].join('\n');
}
