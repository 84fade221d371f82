// The response of a take: one curve, what may not be relied on tinted, its strongest feature marked.
import type { Reading } from '../../measurement/reading.ts';
import { frequencyAxis, levelAxis } from '../axes.ts';
import { fixedText, frequencyText, signedText } from '../number-words.ts';
import type { PlotMark, PlotSpec } from '../plot-spec.ts';
import { stretchesOf } from '../runs.ts';
import { nearestIndex, strongestFeature } from './curve-features.ts';
import type { ReadingPlotOptions } from './plot-options.ts';

/** Where the driver plays, in words; the ends that were not found lie beyond what was played. */
export function playsText(reading: Reading, { style }: Pick<ReadingPlotOptions, 'style'>): string | null {
  const { band } = reading;
  if (!band) return null;
  if (band.lowHz === null && band.highHz === null) return 'It plays over the whole range of the track';
  if (band.lowHz === null) return `It plays up to ${frequencyText(band.highHz as number, style)}`;
  if (band.highHz === null) return `It plays from ${frequencyText(band.lowHz, style)} up`;
  return `It plays from ${frequencyText(band.lowHz, style)} to ${frequencyText(band.highHz, style)}`;
}

/** What the response says, in one sentence. */
export function responseSentence(reading: Reading, options: Pick<ReadingPlotOptions, 'style'>): string {
  const { response, band } = reading;
  if (!response) return 'There is no response to show.';
  const plays = playsText(reading, options) ?? 'The response is drawn where it may be relied on';
  const feature = strongestFeature(response, band);
  if (!feature) return `${plays}, within 4 dB of its own trend.`;
  const way = feature.value < 0 ? 'loses' : 'gains';
  const size = fixedText(Math.abs(feature.value), 0, options.style);
  return `${plays} and ${way} ${size} dB at ${frequencyText(feature.fHz, options.style)}.`;
}

/** Whether levels are sound pressure levels or relative to what was played, in words. */
export function levelWords(reading: Reading): string {
  return reading.reference === 'spl' ? 'dB SPL' : 'dB, recorded over played, not calibrated';
}

/** @returns null where the take carries no response */
export function responsePlot(reading: Reading, options: ReadingPlotOptions): PlotSpec | null {
  const { response, band } = reading;
  if (!response || response.fHz.length < 2) return null;
  const { style, subject, rangeHz } = options;
  const { fHz, levelDb, valid, levelSigmaDb } = response;
  const trusted = levelDb.filter((level, i) => level !== null && valid[i]);
  const marks: PlotMark[] = [];
  const feature = strongestFeature(response, band);
  if (feature) {
    const y = levelDb[nearestIndex(fHz, feature.fHz)];
    const label = `${frequencyText(feature.fHz, style)}, ${signedText(feature.value, 0, style)} dB`;
    if (y !== null) marks.push({ x: feature.fHz, y, role: 'stop', label });
  }
  const sigmaBand = {
    role: 'spread' as const,
    x: fHz,
    low: levelDb.map((level, i) => shifted(level, levelSigmaDb[i], valid[i], -2)),
    high: levelDb.map((level, i) => shifted(level, levelSigmaDb[i], valid[i], 2)),
  };
  return {
    sentence: responseSentence(reading, options),
    state: `${subject}. ${levelWords(reading)}. Tinted: not to be relied on.`,
    x: frequencyAxis(rangeHz.from, rangeHz.to, style),
    y: levelAxis(trusted.length > 0 ? trusted : levelDb, { style, unit: 'dB' }),
    tints: stretchesOf(fHz, (i) => !valid[i]),
    bands: [sigmaBand],
    curves: [{ role: 'measured', x: fHz, y: levelDb }],
    marks,
  };
}

/** A level a number of standard deviations off; nothing where the deviation is too small to be seen. */
function shifted(level: number | null, sigma: number | null, valid: boolean, times: number): number | null {
  if (level === null || sigma === null || !valid || sigma < 0.1) return null;
  return level + times * Math.min(sigma, 10);
}
