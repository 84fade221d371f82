// A plot as SVG text at a given size in pixels, so that type never scales: the page draws it anew when its width changes.
import type { PlotAxis } from './axes.ts';
import { type LabelWish, labelPlaces, type Rectangle, textWidthPx } from './label-places.ts';
import type { ChartPalette } from './palette.ts';
import type { CurveRole, PlotCurve, PlotMark, PlotSpec } from './plot-spec.ts';
import { element, escaped, px } from './svg-text.ts';

export interface PlotSize {
  widthPx: number;
  heightPx: number;
}

/** Room for the labels of the axes, px. */
export const plotMargin = { left: 62, right: 12, top: 10, bottom: 28 };
/** Under this width, px, only a label a decade has room. */
const narrowPx = 430;
const tickPx = 13;
const labelPx = 14;

interface CurveStyle {
  stroke: string;
  'stroke-width': number;
  'stroke-dasharray'?: string;
}

function curveStyle(role: CurveRole, { ink, quiet, note, stop, fix, lead }: ChartPalette): CurveStyle {
  switch (role) {
    case 'measured':
      return { stroke: ink, 'stroke-width': 2.8 };
    case 'before':
      return { stroke: quiet, 'stroke-width': 1.5 };
    case 'predicted':
      return { stroke: note, 'stroke-width': 2.4, 'stroke-dasharray': '8 4' };
    case 'second':
      return { stroke: ink, 'stroke-width': 2.4, 'stroke-dasharray': '9 4' };
    case 'limit':
      return { stroke: stop, 'stroke-width': 3.4 };
    case 'heat':
      return { stroke: fix, 'stroke-width': 3.4, 'stroke-dasharray': '3 4' };
    case 'noise':
      return { stroke: quiet, 'stroke-width': 1.3 };
    case 'lead-1':
      return { stroke: lead[0], 'stroke-width': 2.4 };
    case 'lead-2':
      return { stroke: lead[1], 'stroke-width': 2.4, 'stroke-dasharray': '9 4' };
    case 'lead-3':
      return { stroke: lead[2], 'stroke-width': 2.4, 'stroke-dasharray': '2 4' };
    case 'lead-4':
      return { stroke: lead[3], 'stroke-width': 2.4, 'stroke-dasharray': '12 3 2 3' };
  }
}

/** Where values of an axis lie along `lengthPx`. */
export function axisPlace(axis: PlotAxis, lengthPx: number): (value: number) => number {
  const { from, to } = axis;
  return axis.scale === 'log'
    ? (value) => (lengthPx * Math.log(value / from)) / Math.log(to / from)
    : (value) => (lengthPx * (value - from)) / (to - from);
}

/** The plotting area without the room for labels. */
export function plotArea({ widthPx, heightPx }: PlotSize): PlotSize {
  return {
    widthPx: widthPx - plotMargin.left - plotMargin.right,
    heightPx: heightPx - plotMargin.top - plotMargin.bottom,
  };
}

type Point = [x: number, y: number];

/** Unbroken stretches of a curve, px; what lies far outside is pulled to just outside. */
function stretches(
  xs: ArrayLike<number>,
  ys: ArrayLike<number | null>,
  place: Places,
  axis: { x: PlotAxis; y: PlotAxis },
): Point[][] {
  const found: Point[][] = [];
  let current: Point[] = [];
  for (let i = 0; i < xs.length; i++) {
    const x = xs[i];
    const y = ys[i];
    const drawable = y !== null && Number.isFinite(y) && (axis.y.scale === 'linear' || y > 0);
    if (!drawable || x < axis.x.from * (1 - 1e-9) - 1e-12 || x > axis.x.to * (1 + 1e-9) + 1e-12) {
      if (current.length > 0) found.push(current);
      current = [];
      continue;
    }
    const top = Math.max(-0.3 * place.height, Math.min(1.3 * place.height, place.y(y)));
    current.push([place.x(x), top]);
  }
  if (current.length > 0) found.push(current);
  return found;
}

interface Places {
  x: (value: number) => number;
  y: (value: number) => number;
  width: number;
  height: number;
}

const path = (points: readonly Point[]): string => `M${points.map(([x, y]) => `${px(x)} ${px(y)}`).join('L')}`;

function gridLines(spec: PlotSpec, place: Places, palette: ChartPalette): string {
  const upright = spec.x.lines.map(({ value, major }) =>
    element('path', {
      d: `M${px(place.x(value))} 0V${px(place.height)}`,
      stroke: major ? palette.gridMajor : palette.grid,
    }),
  );
  const level = spec.y.lines.map(({ value }) => {
    const zero = value === spec.y.zero;
    return element('path', {
      d: `M0 ${px(place.y(value))}H${px(place.width)}`,
      stroke: zero ? palette.rule : palette.gridMajor,
      'stroke-width': zero ? 1.5 : undefined,
    });
  });
  return `<g fill="none">${[...upright, ...level].join('')}</g>`;
}

function areas(spec: PlotSpec, place: Places, palette: ChartPalette): string {
  const clamp = (value: number, most: number) => Math.max(0, Math.min(most, value));
  const tints = (spec.tints ?? []).map(({ from, to }) => {
    const left = clamp(place.x(Math.max(from, spec.x.from)), place.width);
    const right = clamp(place.x(Math.min(to, spec.x.to)), place.width);
    return element('rect', {
      x: left,
      y: 0,
      width: Math.max(0, right - left),
      height: place.height,
      fill: palette.tint,
    });
  });
  const zones = (spec.zones ?? []).map(({ from, to, role }) => {
    const top = clamp(place.y(to), place.height);
    const bottom = clamp(place.y(from), place.height);
    const fill = role === 'limit' ? { fill: palette.stop, 'fill-opacity': 0.14 } : { fill: palette.stock };
    return element('rect', { x: 0, y: top, width: place.width, height: bottom - top, ...fill });
  });
  const bands = (spec.bands ?? []).flatMap(({ x, low, high }) => {
    const both = Array.from({ length: x.length }, (_, i) => (low[i] === null || high[i] === null ? null : 1));
    const masked = (ys: ArrayLike<number | null>) => both.map((there, i) => (there === null ? null : ys[i]));
    const upper = stretches(x, masked(high), place, spec);
    const lower = stretches(x, masked(low), place, spec);
    return upper.map((points, i) => {
      const back = [...(lower[i] ?? [])].reverse();
      return element('path', { d: `${path([...points, ...back])}Z`, fill: palette.stock });
    });
  });
  return [...tints, ...zones, ...bands].join('');
}

function haloText(text: string, x: number, y: number, attributes: Record<string, string | number | undefined>): string {
  return element('text', { x, y, 'font-size': labelPx, 'font-weight': 650, ...attributes }, escaped(text));
}

interface DrawnMark {
  shape: string;
  label: string;
  box: Rectangle;
}

function drawnMark(mark: PlotMark, place: Places, palette: ChartPalette): DrawnMark {
  const x = place.x(mark.x);
  const y = Math.max(8, Math.min(place.height - 8, place.y(mark.y)));
  const stroke = mark.role === 'stop' ? palette.stop : palette.ink;
  const shape =
    mark.role === 'stop'
      ? element('path', {
          d: `M${px(x)} ${px(y)}m0 -8l8 8l-8 8l-8 -8z`,
          fill: palette.card,
          stroke,
          'stroke-width': 2.6,
        })
      : element('circle', { cx: x, cy: y, r: 5.5, fill: palette.card, stroke, 'stroke-width': 2.6 });
  const width = textWidthPx(mark.label, labelPx);
  // Beside the mark where there is room; under it in the lower right corner's way would hide the curve.
  const right = x + 13 + width < place.width;
  const left = right ? x + 13 : Math.max(4, x - 13 - width);
  const under = mark.role === 'stop' || (mark.rising && right);
  const baseline = Math.min(place.height - 8, Math.max(14, y + (under ? 20 : -10)));
  return {
    shape,
    label: haloText(mark.label, left, baseline, { fill: palette.ink }),
    box: { left, top: baseline - 14, right: left + width, bottom: baseline + 4 },
  };
}

function labelWish(curve: PlotCurve, spec: PlotSpec, place: Places): LabelWish {
  const points = stretches(curve.x, curve.y, place, spec)
    .flat()
    .filter(([, y]) => y > -1 && y < place.height + 1);
  return { text: curve.label ?? '', points };
}

function tickLabels(spec: PlotSpec, place: Places, palette: ChartPalette): string {
  const narrow = place.width < narrowPx;
  const under = spec.x.ticks
    .filter(({ minor }) => !(narrow && minor))
    .map(({ value, text }, index, all) => {
      const x = place.x(value);
      const half = textWidthPx(text, tickPx) / 2;
      const anchor =
        index === all.length - 1 && x + half > place.width + plotMargin.right
          ? 'end'
          : index === 0 && x < half
            ? 'start'
            : 'middle';
      return element(
        'text',
        { x: anchor === 'start' ? x - 4 : x, y: place.height + 19, 'text-anchor': anchor },
        escaped(text),
      );
    });
  const beside = spec.y.ticks.map(({ value, text }) =>
    element('text', { x: -8, y: place.y(value) + 4.5, 'text-anchor': 'end' }, escaped(text)),
  );
  return `<g font-size="${tickPx}" fill="${palette.quiet}">${[...under, ...beside].join('')}</g>`;
}

/** The colour a label takes from its curve. */
const labelFill = (role: CurveRole, palette: ChartPalette): string => curveStyle(role, palette).stroke;

/**
 * The inside of a plot as SVG elements, laid out for `size`.
 *
 * @param size larger than the margins
 * @returns text without a surrounding svg element; the same spec gives the same text
 * @throws RangeError a size that leaves no room: the caller's mistake
 */
export function plotElements(spec: PlotSpec, size: PlotSize, palette: ChartPalette): string {
  const { widthPx: width, heightPx: height } = plotArea(size);
  if (!(width > 0 && height > 0)) {
    throw new RangeError(`a plot needs more than its margins, got ${size.widthPx} x ${size.heightPx} px`);
  }
  const up = axisPlace(spec.y, height);
  const place: Places = { x: axisPlace(spec.x, width), y: (value) => height - up(value), width, height };
  const curves = spec.curves.map((curve) =>
    stretches(curve.x, curve.y, place, spec)
      .map((points) => (points.length === 1 ? [points[0], points[0]] : points))
      .map((points) => element('path', { d: path(points as Point[]), ...curveStyle(curve.role, palette) }))
      .join(''),
  );
  const marks = (spec.marks ?? []).map((mark) => drawnMark(mark, place, palette));
  const verticals = spec.verticals ?? [];
  const uprights = verticals.map(({ x }) =>
    element('path', {
      d: `M${px(place.x(x))} 0V${px(height)}`,
      stroke: palette.quiet,
      'stroke-width': 1.5,
      'stroke-dasharray': '3 3',
    }),
  );
  const uprightLabels = verticals.map(({ x, label }) => {
    const at = place.x(x);
    const flips = at + textWidthPx(label, labelPx) + 8 > width;
    return haloText(label, flips ? at - 6 : at + 6, 16, {
      'text-anchor': flips ? 'end' : undefined,
      'font-weight': 500,
      fill: palette.quiet,
    });
  });
  const uprightBoxes = verticals.map(({ x, label }) => {
    const at = place.x(x);
    const wide = textWidthPx(label, labelPx) + 8;
    return { left: at + wide > width ? at - wide : at, right: at + wide > width ? at : at + wide, top: 0, bottom: 20 };
  });
  const labelled = spec.curves.filter(({ label }) => label !== undefined);
  const areaWishes = (spec.bands ?? [])
    .filter(({ label }) => label !== undefined)
    .map(({ x, high, label }) => labelWish({ role: 'before', x, y: high, label: label as string }, spec, place));
  // Curves without a label must not be covered either.
  const silent = spec.curves.filter(({ label }) => label === undefined).map((curve) => labelWish(curve, spec, place));
  const wishes = [...labelled.map((curve) => labelWish(curve, spec, place)), ...areaWishes];
  const places = labelPlaces([...wishes, ...silent], { widthPx: width, heightPx: height, textPx: labelPx }, [
    ...marks.map(({ box }) => box),
    ...uprightBoxes,
  ]);
  const labels = wishes.map(({ text }, i) => {
    const at = places[i];
    if (at === null) return '';
    const role = labelled[i]?.role;
    const quiet = role === undefined || role === 'before' || role === 'noise';
    return haloText(text, at.x, at.baseline, {
      fill: role === undefined ? palette.quiet : labelFill(role, palette),
      'font-weight': quiet ? 500 : undefined,
    });
  });
  const zoneLabels = (spec.zones ?? [])
    .filter(({ label }) => label !== undefined)
    .map(({ from, to, label, role }) =>
      haloText(label as string, width - 8, role === 'limit' ? place.y(from) - 8 : place.y(to) - 6, {
        'text-anchor': 'end',
        fill: palette.quiet,
        'font-weight': 500,
      }),
    );
  return [
    `<g transform="translate(${plotMargin.left} ${plotMargin.top})">`,
    element('rect', { width, height, fill: palette.card }),
    `<svg width="${px(width)}" height="${px(height)}" overflow="hidden">`,
    areas(spec, place, palette),
    gridLines(spec, place, palette),
    uprights.join(''),
    `<g fill="none" stroke-linejoin="round" stroke-linecap="round">${curves.join('')}</g>`,
    '</svg>',
    element('path', { d: `M0 0V${px(height)}H${px(width)}`, fill: 'none', stroke: palette.ink, 'stroke-width': 1.5 }),
    tickLabels(spec, place, palette),
    marks.map(({ shape }) => shape).join(''),
    `<g stroke="${palette.card}" stroke-width="4" stroke-linejoin="round" paint-order="stroke">`,
    [...uprightLabels, ...zoneLabels, ...labels, ...marks.map(({ label }) => label)].join(''),
    '</g>',
    '</g>',
  ].join('');
}
