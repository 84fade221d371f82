import { describe, expect, test } from 'vitest';
import { frequencyAxis, levelAxis, linearAxis, percentAxis } from './axes.ts';
import { pagePalette, paperPalette } from './palette.ts';
import { plotElements } from './plot.ts';
import type { PlotSpec } from './plot-spec.ts';

const x = [100, 200, 400, 800, 1600];
const spec: PlotSpec = {
  sentence: 'It falls.',
  state: 'Made up.',
  x: frequencyAxis(100, 1600),
  y: levelAxis([-10, -30]),
  curves: [{ role: 'measured', x, y: [-10, -15, null, -25, -30], label: 'after' }],
};
// 160 x 100 px of plot: one octave is 40 px, 50 dB are 100 px.
const size = { widthPx: 160 + 74, heightPx: 100 + 38 };

describe('a plot', () => {
  test('breaks a curve where nothing is known', () => {
    const svg = plotElements(spec, size, paperPalette);
    expect(svg).toContain('d="M0 20L40 30"');
    expect(svg).toContain('d="M120 50L160 60"');
  });

  test('draws the same role with the same line everywhere', () => {
    const before = plotElements(
      { ...spec, curves: [{ role: 'before', x, y: [-10, -15, -20, -25, -30] }] },
      size,
      paperPalette,
    );
    expect(before).toContain('stroke="#526069" stroke-width="1.5"');
  });

  test('takes the colours of the page when the page asks', () => {
    const svg = plotElements(spec, size, pagePalette);
    expect(svg).toContain('stroke="var(--ink)"');
    expect(svg).not.toContain('#12202a');
  });

  test('closes a band and leaves gaps out of it', () => {
    const low = [-20, -25, null, -35, -40];
    const svg = plotElements(
      { ...spec, bands: [{ role: 'spread', x, low, high: [-10, -15, -20, -25, -30] }] },
      size,
      paperPalette,
    );
    expect(svg).toContain('d="M0 20L40 30L40 50L0 40Z"');
  });

  test('draws nothing below zero on a logarithmic axis instead of failing', () => {
    const svg = plotElements(
      { ...spec, y: percentAxis(0.1, 10), curves: [{ role: 'measured', x, y: [0, -1, 1, 1, 1] }] },
      size,
      paperPalette,
    );
    expect(svg).not.toMatch(/NaN|Infinity/);
    expect(svg).toContain('d="M80 50L120 50L160 50"');
  });

  test('escapes what people named', () => {
    const named = {
      ...spec,
      curves: [{ role: 'measured' as const, x, y: [-10, -10, -10, -10, -10], label: '<b> & "c"' }],
    };
    expect(plotElements(named, size, paperPalette)).toContain('&lt;b&gt; &amp; &quot;c&quot;');
  });

  test('leaves minor labels out when it is narrow', () => {
    const wide = { ...spec, x: frequencyAxis(20, 20_000) };
    expect(plotElements(wide, { widthPx: 300, heightPx: 200 }, paperPalette)).not.toContain('>500<');
    expect(plotElements(wide, { widthPx: 700, heightPx: 200 }, paperPalette)).toContain('>500<');
  });

  test('keeps a mark inside and names it', () => {
    const y = linearAxis({ from: -6, to: 6, step: 3, unit: 'dB', unitAt: 'last' });
    const svg = plotElements(
      { ...spec, y, marks: [{ x: 400, y: 90, role: 'stop', label: 'far out' }] },
      size,
      paperPalette,
    );
    expect(svg).toContain('M80 8m0 -8l8 8l-8 8l-8 -8z');
    expect(svg).toContain('far out');
  });

  test('refuses a size smaller than its margins', () => {
    expect(() => plotElements(spec, { widthPx: 60, heightPx: 200 }, paperPalette)).toThrow(RangeError);
  });
});
