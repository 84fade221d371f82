// What the driver screen opens with.
import { fixedText, frequencyText, type NumberStyle, signedText } from '../../charts/number-words.ts';
import type { PartOf } from '../../plan/plan.ts';
import type { DriverInSystem, HighPassRow, LimitCurves, SafeHighPass } from './driver-model.ts';

export const limitWords = { excursion: 'travel', thermal: 'heat', amplifier: 'the amplifier' } as const;

/** A driver by its make and model, else by its name. */
export const driverName = ({ id, make, model, name }: PartOf<'driver'>): string =>
  model === undefined ? (name ?? id) : [make, model].filter(Boolean).join(' ');

/** Travel in millimetres: two decimals under a millimetre, one above. */
export const travelText = (mm: number, style: NumberStyle): string => `${fixedText(mm, mm < 1 ? 2 : 1, style)} mm`;

/** Which limit holds the driver back, and what another high-pass would change. */
export function driverSentence(
  system: DriverInSystem,
  planned: HighPassRow,
  looked: HighPassRow,
  safe: SafeHighPass,
  style: NumberStyle,
): string {
  const { driver, highPassHz } = system;
  const kind = {
    tweeter: 'treble driver',
    mid: 'middle driver',
    midbass: 'midbass',
    'full-range': 'full-range driver',
    sub: 'sub',
  }[driver.kind ?? 'full-range'];
  const small = driver.kind === 'tweeter' || driver.kind === 'mid';
  if (safe.strokeHz === 'none-helps') return `No high-pass keeps the ${kind} within its travel at this power.`;
  const held =
    planned.limit === 'excursion'
      ? `Near ${frequencyText(planned.tightestHz, style)} the ${kind} is held back by travel.`
      : `The ${kind} is held back by ${limitWords[planned.limit]}, not by travel.`;
  if (looked.hz !== planned.hz && looked.hz !== null) {
    const start =
      highPassHz === null
        ? `A high-pass at ${frequencyText(looked.hz, style)}`
        : `Starting at ${frequencyText(looked.hz, style)}, not ${frequencyText(highPassHz, style)},`;
    const gain =
      looked.gainDb >= 0
        ? `gains ${fixedText(looked.gainDb, 1, style)}`
        : `costs ${fixedText(-looked.gainDb, 1, style)}`;
    return `${held} ${start} ${gain} dB of clean level.`;
  }
  if (safe.safeHz !== null && (highPassHz ?? 0) < 0.995 * safe.safeHz) {
    const now = highPassHz === null ? 'it has none' : `it is set to ${frequencyText(highPassHz, style)}`;
    return `${held} A safe high-pass is ${frequencyText(safe.safeHz, style)}; ${now}.`;
  }
  return small || safe.safeHz !== null ? `${held} Its high-pass is safe at this amplifier's full power.` : held;
}

/** What the limits say where it is looked at: which ends first, and where travel would. */
export function limitsSentence({ crossing }: LimitCurves, looked: HighPassRow, style: NumberStyle): string {
  if (looked.limit === 'excursion' && crossing !== null) {
    return `Up to ${frequencyText(crossing.fHz, style)} travel ends first; above it another limit does.`;
  }
  if (looked.limit === 'excursion') return 'Travel ends first over the whole range.';
  const first = looked.limit === 'thermal' ? 'Heat' : 'The amplifier';
  return crossing === null
    ? `${first} ends first; travel is never reached behind this high-pass.`
    : `${first} ends first; travel would below ${frequencyText(crossing.fHz, style)}, where little is played.`;
}

export function travelSentence(looked: HighPassRow, xmaxMm: number, style: NumberStyle): string {
  const most = `At most ${travelText(looked.travelMm, style)} at ${frequencyText(looked.tightestHz, style)}`;
  return looked.withinStroke
    ? `${most}, inside its ${travelText(xmaxMm, style)}.`
    : `${most}: past its ${travelText(xmaxMm, style)}.`;
}

export const gainText = (gainDb: number, style: NumberStyle): string =>
  Math.abs(gainDb) < 0.05 ? '0 dB' : `${signedText(gainDb, 1, style)} dB`;
