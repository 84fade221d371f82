// Distortion by order over frequency, only where it can be told from noise.
import type { Reading } from '../../measurement/reading.ts';
import { frequencyAxis, percentAxis } from '../axes.ts';
import { frequencyText, percentText } from '../number-words.ts';
import type { PlotCurve, PlotSpec } from '../plot-spec.ts';
import { highestDistortion } from './curve-features.ts';
import type { ReadingPlotOptions } from './plot-options.ts';

const orders = [
  { field: 'h2Pct', role: 'lead-1', label: 'second harmonic' },
  { field: 'h3Pct', role: 'lead-2', label: 'third' },
] as const;

/** What the distortion says, in one sentence. */
export function distortionSentence({ distortion }: Reading, { style }: Pick<ReadingPlotOptions, 'style'>): string {
  if (!distortion) return 'There is no distortion to show.';
  const worst = highestDistortion(distortion);
  if (!worst) return 'No distortion stands out of the noise.';
  return `Distortion is highest at ${frequencyText(worst.fHz, style)}, with ${percentText(worst.value, style)}.`;
}

/** @returns null where the take carries no distortion */
export function distortionPlot(reading: Reading, options: ReadingPlotOptions): PlotSpec | null {
  const { distortion } = reading;
  if (!distortion || distortion.fHz.length < 2) return null;
  const { style, subject, rangeHz } = options;
  const { fHz, thdPct, floorPct, valid } = distortion;
  const seen = thdPct.filter((value, i) => value !== null && valid[i]) as number[];
  const highest = seen.reduce((most, value) => Math.max(most, value), 1);
  const lowest = seen.reduce((least, value) => Math.min(least, value), 0.1);
  const curves: PlotCurve[] = [
    { role: 'noise', x: fHz, y: floorPct, label: 'what noise alone would read' },
    ...orders.map(({ field, role, label }) => ({
      role,
      label,
      x: fHz,
      y: distortion[field].map((value, i) => (valid[i] ? value : null)),
    })),
    { role: 'measured', x: fHz, y: thdPct.map((value, i) => (valid[i] ? value : null)) },
  ];
  const worst = highestDistortion(distortion);
  return {
    sentence: distortionSentence(reading, options),
    state: `${subject}. Percent of the sound itself, drawn where it stands out of the noise.`,
    x: frequencyAxis(rangeHz.from, rangeHz.to, style),
    y: percentAxis(lowest < 0.05 ? 0.01 : 0.03, highest > 30 ? 300 : highest > 3 ? 45 : 12, style),
    curves,
    marks: worst
      ? [
          {
            x: worst.fHz,
            y: worst.value,
            role: 'stop',
            label: `${frequencyText(worst.fHz, style)}, ${percentText(worst.value, style)}`,
          },
        ]
      : [],
  };
}
