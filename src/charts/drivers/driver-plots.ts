// What a driver may do and what its cone does, as plots: limits, travel, response, port, impedance.
import { frequencyAxis, levelAxis, linearAxis } from '../axes.ts';
import { fixedText, frequencyText, type NumberStyle } from '../number-words.ts';
import type { PlotCurve, PlotMark, PlotSpec } from '../plot-spec.ts';

interface Common {
  style: NumberStyle;
  /** What is looked at, such as "Ottery W165 at A3". */
  subject: string;
  range: { fromHz: number; toHz: number };
  fHz: readonly number[];
}

/** A step of 1, 2 or 5 that gives an axis about five lines. */
function niceStep(span: number): number {
  const decade = 10 ** Math.floor(Math.log10(span / 5));
  return [1, 2, 5, 10].map((lead) => lead * decade).find((step) => span / step <= 6) ?? 10 * decade;
}

/** A linear axis from 0 that holds `most`. */
function upFromZero(most: number, unit: string, style: NumberStyle) {
  const span = Math.max(most, 1e-6) * 1.12;
  const step = niceStep(span);
  return linearAxis({ from: 0, to: Math.ceil(span / step) * step, step, unit, unitAt: 'last', style });
}

export interface LimitsWish extends Common {
  sentence: string;
  /** Level at 1 m that each limit alone allows, dB. */
  travelDb: readonly number[];
  heatDb: readonly number[] | null;
  amplifierDb: readonly number[];
  amplifier: string;
  heatW: number | null;
  /** Where the channel begins and ends to play; null where it has no such edge. */
  highPassHz: number | null;
  lowPassHz: number | null;
  /** Where travel takes over from what binds above. */
  crossing: { fHz: number; levelDb: number } | null;
}

/** Loudest clean level against frequency, each limit alone. */
export function limitsPlot(wish: LimitsWish): PlotSpec {
  const { style, range, fHz, highPassHz, lowPassHz, crossing } = wish;
  const played = (f: number) => f >= 0.7 * (highPassHz ?? 0) && f <= 1.4 * (lowPassHz ?? Number.POSITIVE_INFINITY);
  const inBand = fHz.flatMap((f, i) =>
    played(f) ? [Math.min(wish.travelDb[i], wish.amplifierDb[i], wish.heatDb?.[i] ?? Number.POSITIVE_INFINITY)] : [],
  );
  const curves: PlotCurve[] = [
    { role: 'before', x: fHz, y: wish.amplifierDb, label: `${wish.amplifier} clips` },
    ...(wish.heatDb === null
      ? []
      : [{ role: 'heat' as const, x: fHz, y: wish.heatDb, label: `heat, ${fixedText(wish.heatW ?? 0, 0, style)} W` }]),
    { role: 'limit', x: fHz, y: wish.travelDb, label: 'travel' },
  ];
  const marks: PlotMark[] =
    crossing === null
      ? []
      : [{ x: crossing.fHz, y: crossing.levelDb, role: 'stop', label: frequencyText(crossing.fHz, style) }];
  const top = Math.max(...wish.amplifierDb.filter(Number.isFinite), ...inBand);
  return {
    sentence: wish.sentence,
    state: `${wish.subject}. Loudest clean level of a tone at 1 m in half space, each limit alone; forecast.`,
    x: frequencyAxis(range.fromHz, range.toHz, style),
    y: levelAxis([top, ...inBand], { spanMinDb: 40, spanMaxDb: 50, unit: 'dB', style }),
    tints: [
      ...(highPassHz === null ? [] : [{ from: range.fromHz, to: highPassHz }]),
      ...(lowPassHz === null ? [] : [{ from: lowPassHz, to: range.toHz }]),
    ],
    curves,
    // The tint shows where the low-pass is; two labels side by side have no room on a phone.
    verticals: highPassHz === null ? [] : [{ x: highPassHz, label: `high-pass ${frequencyText(highPassHz, style)}` }],
    marks,
  };
}

export interface TravelWish extends Common {
  sentence: string;
  voltRms: number;
  /** One way, peak. */
  xmaxMm: number;
  /** With what is looked at; the first is the one that counts. */
  travelMm: readonly number[];
  label: string;
  /** As planned, where that is something else. */
  plannedMm: readonly number[] | null;
  plannedLabel: string;
}

/** Cone travel against frequency, with the zone past what the cone stands. */
export function travelPlot(wish: TravelWish): PlotSpec {
  const { style, range, fHz, travelMm, plannedMm, xmaxMm } = wish;
  const most = Math.max(...travelMm);
  const at = travelMm.indexOf(most);
  const highest = Math.max(most, xmaxMm * 1.5, ...(plannedMm ?? []).map((mm) => Math.min(mm, 3 * xmaxMm)));
  const y = upFromZero(Math.min(highest, 4 * xmaxMm), 'mm', style);
  return {
    sentence: wish.sentence,
    state: `${wish.subject}. Peak one way at ${fixedText(wish.voltRms, 1, style)} V, where the amplifier clips; forecast.`,
    x: frequencyAxis(range.fromHz, range.toHz, style),
    y,
    zones: [
      {
        role: 'limit',
        from: xmaxMm,
        to: y.to,
        label: `past its travel, ${fixedText(xmaxMm, xmaxMm < 1 ? 2 : 1, style)} mm`,
      },
    ],
    curves: [
      { role: 'measured', x: fHz, y: travelMm, label: wish.label },
      ...(plannedMm === null ? [] : [{ role: 'before' as const, x: fHz, y: plannedMm, label: wish.plannedLabel }]),
    ],
    marks:
      at < 0 || most > y.to
        ? []
        : [
            {
              x: fHz[at],
              y: most,
              role: most > xmaxMm ? 'stop' : 'plain',
              label: `${fixedText(most, most < 1 ? 2 : 1, style)} mm`,
            },
          ],
  };
}

export interface BoxCurveWish extends Common {
  sentence: string;
  state: string;
  curves: { values: readonly number[]; label: string; planned?: boolean }[];
  mark?: { fHz: number; value: number; label: string; bad?: boolean };
}

const boxCurves = ({ fHz, curves }: BoxCurveWish): PlotCurve[] =>
  curves.map(({ values, label, planned }) => ({ role: planned ? 'before' : 'measured', x: fHz, y: values, label }));

const boxMarks = ({ mark }: BoxCurveWish): PlotMark[] =>
  mark === undefined ? [] : [{ x: mark.fHz, y: mark.value, role: mark.bad ? 'stop' : 'plain', label: mark.label }];

/** Response of a box and driver against their own pass band. */
export function responsePlotOf(wish: BoxCurveWish): PlotSpec {
  const { style, range } = wish;
  return {
    sentence: wish.sentence,
    state: wish.state,
    x: frequencyAxis(range.fromHz, range.toHz, style),
    y: linearAxis({ from: -24, to: 6, step: 6, unit: 'dB', unitAt: 'last', zero: 0, signed: true, style }),
    curves: boxCurves(wish),
    marks: boxMarks(wish).map((mark) => ({ ...mark, rising: true })),
  };
}

/** Air speed in the port, with the zone where it makes noise. */
export function portPlot(wish: BoxCurveWish & { limitMps: number }): PlotSpec {
  const { style, range, limitMps } = wish;
  const y = upFromZero(Math.max(limitMps * 1.2, ...wish.curves.flatMap(({ values }) => values)), 'm/s', style);
  return {
    sentence: wish.sentence,
    state: wish.state,
    x: frequencyAxis(range.fromHz, range.toHz, style),
    y,
    zones: [{ role: 'limit', from: limitMps, to: y.to, label: `noise above ${fixedText(limitMps, 0, style)} m/s` }],
    curves: boxCurves(wish),
    marks: boxMarks(wish),
  };
}

/** What the amplifier sees. */
export function impedancePlot(wish: BoxCurveWish): PlotSpec {
  const { style, range } = wish;
  return {
    sentence: wish.sentence,
    state: wish.state,
    x: frequencyAxis(range.fromHz, range.toHz, style),
    y: upFromZero(Math.max(...wish.curves.flatMap(({ values }) => values)), 'ohm', style),
    curves: boxCurves(wish),
    marks: boxMarks(wish),
  };
}
