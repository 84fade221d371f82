import { expect, test } from 'vitest';
import { plainNumbers } from '../number-words.ts';
import { paperPalette } from '../palette.ts';
import { plotElements } from '../plot.ts';
import { impedancePlot, limitsPlot, portPlot, travelPlot } from './driver-plots.ts';

const fHz = [20, 50, 100, 200, 500];
const common = {
  style: plainNumbers,
  subject: 'A driver at A1',
  range: { fromHz: 20, toHz: 500 },
  fHz,
  sentence: 'See this.',
};

test('limits are drawn with a line of their own each, and the range that is not played is tinted', () => {
  const spec = limitsPlot({
    ...common,
    travelDb: [70, 84, 96, 108, 124],
    heatDb: [105, 105, 105, 105, 105],
    heatW: 60,
    amplifierDb: [80, 100, 106, 107, 107],
    amplifier: 'amp A',
    highPassHz: 80,
    lowPassHz: null,
    crossing: { fHz: 180, levelDb: 105 },
  });
  expect(spec.curves.map(({ role }) => role)).toEqual(['before', 'heat', 'limit']);
  expect(spec.tints).toEqual([{ from: 20, to: 80 }]);
  const svg = plotElements(spec, { widthPx: 700, heightPx: 260 }, paperPalette);
  for (const words of ['amp A clips', 'heat, 60 W', 'travel', '180 Hz', 'high-pass 80 Hz'])
    expect(svg).toContain(words);
  expect(svg).toContain(paperPalette.fix);
});

test('travel past what the cone stands is marked as a fault, and the axis holds the limit', () => {
  const wish = { ...common, voltRms: 14, xmaxMm: 3, label: 'from 80 Hz', plannedMm: null, plannedLabel: '' };
  const over = travelPlot({ ...wish, travelMm: [0.4, 2, 4.5, 2, 0.3] });
  expect(over.marks?.[0]).toMatchObject({ x: 100, role: 'stop', label: '4.5 mm' });
  const within = travelPlot({ ...wish, travelMm: [0.1, 0.4, 0.9, 0.5, 0.1] });
  expect(within.marks?.[0]).toMatchObject({ x: 100, role: 'plain' });
  expect(within.y.to).toBeGreaterThan(3);
});

test('port and impedance axes begin at nothing and hold every value', () => {
  const curves = [{ values: [3, 31, 12, 4, 1], label: '30 L' }];
  expect(portPlot({ ...common, state: '', curves, limitMps: 25 }).y).toMatchObject({ from: 0 });
  expect(portPlot({ ...common, state: '', curves, limitMps: 25 }).y.to).toBeGreaterThan(31);
  expect(impedancePlot({ ...common, state: '', curves }).y.from).toBe(0);
});
