// The colours of a chart by what they stand for: on paper as fixed colours, on a page as the page's own variables.

export interface ChartPalette {
  ink: string;
  /** Labels and quiet lines. */
  quiet: string;
  card: string;
  /** Areas: tolerance, spread. */
  stock: string;
  /** Areas where nothing is played or nothing may be relied on. */
  tint: string;
  grid: string;
  gridMajor: string;
  rule: string;
  stop: string;
  fix: string;
  note: string;
  ok: string;
  lead: readonly [string, string, string, string];
}

export const paperPalette: ChartPalette = {
  ink: '#12202a',
  quiet: '#526069',
  card: '#fdfefb',
  stock: '#d5e2cf',
  tint: '#e6eae2',
  grid: '#dfe5dc',
  gridMajor: '#c3cdc1',
  rule: '#84928a',
  stop: '#a3211b',
  fix: '#854600',
  note: '#1a567f',
  ok: '#155f3b',
  lead: ['#1a567f', '#9a4a12', '#155f3b', '#6d3f86'],
};

/** Follows the page's theme without being drawn again. */
export const pagePalette: ChartPalette = {
  ink: 'var(--ink)',
  quiet: 'var(--ink-2)',
  card: 'var(--card)',
  stock: 'var(--stock)',
  tint: 'var(--stock-2)',
  grid: 'var(--grid)',
  gridMajor: 'var(--grid-2)',
  rule: 'var(--rule-2)',
  stop: 'var(--stop)',
  fix: 'var(--fix)',
  note: 'var(--note)',
  ok: 'var(--ok)',
  lead: ['var(--lead-1)', 'var(--lead-2)', 'var(--lead-3)', 'var(--lead-4)'],
};
