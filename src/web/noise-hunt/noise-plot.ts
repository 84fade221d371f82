// A take of the hunt as a plot: the spectrum, and what stands out of it.
import { frequencyAxis, levelAxis } from '../../charts/axes.ts';
import { frequencyText, type NumberStyle } from '../../charts/number-words.ts';
import type { PlotMark, PlotSpec } from '../../charts/plot-spec.ts';
import type { LevelledTone, NoiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import type { TakeCurve } from './hunt-messages.ts';

const LABELLED = 3;

const placeIn = (tone: LevelledTone, take: TakeCurve['take']): number | null =>
  take === 'off' ? tone.offHz : take === 'idle' ? tone.idleHz : take === 'revs' ? tone.revsHz : null;

export const moves = ({ class: found }: LevelledTone): boolean =>
  found.startsWith('alternator') || found === 'engine or ignition';

const levelAt = ({ fHz, levelDb }: TakeCurve, wanted: number): number => {
  let best = 0;
  for (let n = 1; n < fHz.length; n++) {
    if (Math.abs(Math.log(fHz[n] / wanted)) < Math.abs(Math.log(fHz[best] / wanted))) best = n;
  }
  return levelDb[best];
};

/**
 * @param curves  all takes that are drawn: they share one level axis, so that they may be compared
 * @param subject what the take is, such as "Idle, 820 a minute"
 */
export function noisePlot(
  curve: TakeCurve,
  curves: readonly TakeCurve[],
  { tones, reference }: NoiseHunt,
  subject: string,
  style: NumberStyle,
): PlotSpec {
  const here = tones.flatMap((tone) => {
    const fHz = placeIn(tone, curve.take);
    return fHz === null ? [] : [{ tone, fHz }];
  });
  const marks = here.map(({ tone, fHz }, n): PlotMark => {
    const role = moves(tone) && tone.carsOwn !== true ? 'stop' : 'plain';
    return { x: fHz, y: levelAt(curve, fHz), role, label: n < LABELLED ? frequencyText(fHz, style) : '' };
  });
  const climbing = here.filter(({ tone }) => moves(tone)).length;
  const count = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;
  const sentence =
    here.length === 0
      ? 'No tone stands out.'
      : `${count(here.length, 'tone stands out', 'tones stand out')}; ${
          climbing === 0 ? 'none climbs' : count(climbing, 'climbs', 'climb')
        } with the engine.`;
  const unit = reference === 'spl' ? 'dB SPL' : 'dB re full scale, not calibrated';
  return {
    sentence,
    state: `${subject}. Loudest bin of each 1/48 octave, ${unit}.`,
    x: frequencyAxis(20, 20_000, style),
    y: levelAxis(
      curves.flatMap(({ levelDb }) => levelDb),
      { spanMinDb: 40, spanMaxDb: 80, style },
    ),
    curves: [{ role: 'measured', x: curve.fHz, y: curve.levelDb }],
    marks,
  };
}
