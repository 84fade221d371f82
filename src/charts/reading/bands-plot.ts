// Third-octave band levels: a bar across each band, never a column from the floor.
import type { Reading } from '../../measurement/reading.ts';
import { frequencyAxis, levelAxis } from '../axes.ts';
import { fixedText, frequencyText } from '../number-words.ts';
import type { PlotSpec } from '../plot-spec.ts';
import type { ReadingPlotOptions } from './plot-options.ts';
import { levelWords } from './response-plot.ts';

const halfBand = 10 ** 0.05;

export function bandsSentence(reading: Reading, { style }: Pick<ReadingPlotOptions, 'style'>): string {
  const { bands } = reading;
  const known = (bands?.fHz ?? []).flatMap((fHz, i) => {
    const level = bands?.levelDb[i];
    return level === null || level === undefined ? [] : [{ fHz, level }];
  });
  if (known.length === 0) return 'There are no band levels to show.';
  const loudest = known.reduce((most, band) => (band.level > most.level ? band : most));
  return `The loudest third octave is ${frequencyText(loudest.fHz, style)}, at ${fixedText(loudest.level, 1, style)} dB.`;
}

/** @returns null where the take carries no bands */
export function bandsPlot(reading: Reading, options: ReadingPlotOptions): PlotSpec | null {
  const { bands } = reading;
  if (!bands || bands.fHz.length < 2) return null;
  const { style, subject, rangeHz } = options;
  // Each band is a short level stretch, with a gap before the next.
  const x: number[] = [];
  const y: (number | null)[] = [];
  bands.fHz.forEach((fHz, i) => {
    x.push(fHz / halfBand, fHz * halfBand, fHz * halfBand * 1.0001);
    y.push(bands.levelDb[i], bands.levelDb[i], null);
  });
  return {
    sentence: bandsSentence(reading, options),
    state: `${subject}. Third octaves, ${levelWords(reading)}.`,
    x: frequencyAxis(rangeHz.from, rangeHz.to, style),
    y: levelAxis(bands.levelDb, { style }),
    curves: [{ role: 'measured', x, y }],
  };
}
