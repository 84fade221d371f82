// The impulse response around the direct sound, in milliseconds from its arrival.
import { linearAxis } from '../axes.ts';
import { fixedText } from '../number-words.ts';
import type { PlotSpec } from '../plot-spec.ts';
import type { ReadingPlotOptions } from './plot-options.ts';

export interface ImpulseShown {
  rateHz: number;
  /** Index of the direct sound. */
  arrivalIndex: number;
  samples: ArrayLike<number>;
}

const beforeMs = 2;
const afterMs = 12;
/** More points than this no screen shows. */
const pointsMax = 2400;

export function impulseSentence(impulse: ImpulseShown, { style }: Pick<ReadingPlotOptions, 'style'>): string {
  const { rateHz, arrivalIndex, samples } = impulse;
  const from = Math.max(0, Math.round(arrivalIndex - (beforeMs * rateHz) / 1000));
  const to = Math.min(samples.length, Math.round(arrivalIndex + (afterMs * rateHz) / 1000));
  let peak = from;
  for (let i = from; i < to; i++) if (Math.abs(samples[i]) > Math.abs(samples[peak])) peak = i;
  const ms = ((peak - arrivalIndex) * 1000) / rateHz;
  const way = samples[peak] < 0 ? 'down' : 'up';
  return `The highest point of the impulse goes ${way}, ${fixedText(Math.abs(ms), 2, style)} ms ${ms < 0 ? 'before' : 'after'} the direct sound.`;
}

/** @returns null where there is nothing around the direct sound */
export function impulsePlot(impulse: ImpulseShown, options: Omit<ReadingPlotOptions, 'rangeHz'>): PlotSpec | null {
  const { rateHz, arrivalIndex, samples } = impulse;
  const from = Math.max(0, Math.ceil(arrivalIndex - (beforeMs * rateHz) / 1000));
  const to = Math.min(samples.length, Math.floor(arrivalIndex + (afterMs * rateHz) / 1000));
  let peak = 0;
  for (let i = from; i < to; i++) peak = Math.max(peak, Math.abs(samples[i]));
  if (!(peak > 0)) return null;
  const step = Math.max(1, Math.ceil((to - from) / pointsMax));
  const x: number[] = [];
  const y: number[] = [];
  for (let i = from; i < to; i += step) {
    x.push(((i - arrivalIndex) * 1000) / rateHz);
    y.push((100 * samples[i]) / peak);
  }
  return {
    sentence: impulseSentence(impulse, options),
    state: `${options.subject}. Percent of the highest point, milliseconds from the direct sound.`,
    x: linearAxis({ from: -beforeMs, to: afterMs, step: 2, unit: 'ms', unitAt: 'first', style: options.style }),
    y: linearAxis({ from: -110, to: 110, step: 50, unit: '%', unitAt: 'last', zero: 0, style: options.style }),
    curves: [{ role: 'measured', x, y }],
    verticals: [{ x: 0, label: 'direct sound' }],
  };
}
