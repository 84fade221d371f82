// The plan view as shapes: what a page draws as elements and a report as text. Only the car scales; letters and lines do not.
import type { SteeringHand, VehicleBody } from './bodies.ts';
import { backM, type PlanCover, type PlanLayout, type PlanPlace, planLayout, seatM } from './layout.ts';
import { circlePath, rectanglePath, rounded } from './path-text.ts';
import type { DrawnCover, DrawnPlace, Pen, PlanDrawing, PlanShape } from './plan-shapes.ts';
import { tailShapes } from './tail-shapes.ts';

export interface PlanDrawingOptions {
  hand: SteeringHand;
  pxPerM: number;
  /** Room beside and above the car, px. */
  padX?: number;
  padY?: number;
}

function penFor(body: VehicleBody, options: PlanDrawingOptions): Pen {
  const { pxPerM, padX = 34, padY = 8 } = options;
  const centre = padX + (body.widthM / 2) * pxPerM;
  const x = (xM: number) => rounded(centre + xM * pxPerM);
  const y = (yM: number) => rounded(padY + yM * pxPerM);
  const px = (lengthM: number) => rounded(lengthM * pxPerM);
  const at = (xM: number, yM: number) => `${x(xM)} ${y(yM)}`;
  return {
    x,
    y,
    px,
    at,
    box: (area, radiusPx = 0) => rectanglePath(x(area.x), y(area.y), px(area.widthM), px(area.lengthM), radiusPx),
    band: (w0, y0, w1, y1, bow) =>
      `M${at(-w0, y0)}Q${at(0, y0 - bow)} ${at(w0, y0)}L${at(w1, y1)}Q${at(0, y1 - bow)} ${at(-w1, y1)}Z`,
  };
}

/** How round nose, shoulders and tail are, m. */
function outlineOf(body: VehicleBody) {
  const h = body.widthM / 2;
  const b = body.boxy;
  return {
    h,
    noseHalf: h * (0.74 + 0.16 * b),
    noseBow: 0.17 - 0.11 * b,
    shoulder: 0.62 - 0.26 * b,
    tailHalf: h * (0.8 + 0.13 * b),
    tailBow: 0.12 - 0.08 * b,
    tailShoulder: 0.46 - 0.26 * b,
  };
}

function bodyPath(body: VehicleBody, { at }: Pen): string {
  const { h, noseHalf: nw, noseBow: bow, shoulder: sh, tailHalf: tw, tailBow: tb, tailShoulder: ts } = outlineOf(body);
  const end = body.lengthM;
  return [
    `M${at(-nw, bow)}Q${at(0, -bow * 0.55)} ${at(nw, bow)}`,
    `C${at(nw + (h - nw) * 0.75, bow + 0.06)} ${at(h - 0.01, sh * 0.55)} ${at(h, sh)}`,
    `L${at(h, end - ts)}`,
    `C${at(h, end - ts * 0.4)} ${at(tw + (h - tw) * 0.6, end - tb - 0.03)} ${at(tw, end - tb)}`,
    `Q${at(0, end + tb * 0.55)} ${at(-tw, end - tb)}`,
    `C${at(-tw - (h - tw) * 0.6, end - tb - 0.03)} ${at(-h, end - ts * 0.4)} ${at(-h, end - ts)}`,
    `L${at(-h, sh)}`,
    `C${at(-h + 0.01, sh * 0.55)} ${at(-nw - (h - nw) * 0.75, bow + 0.06)} ${at(-nw, bow)}Z`,
  ].join('');
}

function frontShapes(body: VehicleBody, layout: PlanLayout, pen: Pen): PlanShape[] {
  const { at, x, y, box, px } = pen;
  const { h, noseHalf: nw, noseBow: bow } = outlineOf(body);
  const { bonnetM, rakeM } = body;
  const cowl = bonnetM + rakeM;
  const wheels = layout.axles.flatMap((axle) =>
    [-1, 1].map((side) => box({ x: side < 0 ? -h - 0.055 : h - 0.145, y: axle - 0.32, widthM: 0.2, lengthM: 0.64 }, 4)),
  );
  const mirrors = [-1, 1]
    .map(
      (side) =>
        `M${at(side * h, cowl - 0.05)}L${at(side * (h + 0.15), cowl + 0.02)}V${y(cowl + 0.11)}L${at(side * h, cowl + 0.08)}`,
    )
    .join('');
  const bonnet = [-1, 1]
    .map(
      (side) =>
        `M${at(side * nw * 0.96, bow + 0.05)}Q${at(side * h * 0.78, bonnetM * 0.55)} ${at(side * h * 0.84, bonnetM - 0.03)}`,
    )
    .join('');
  const lip = `M${at(-nw * 0.86, bow + 0.1)}Q${at(0, bow * 0.1 + 0.08)} ${at(nw * 0.86, bow + 0.1)}`;
  const doorCuts = layout.doors
    .flatMap(([from, to]) => [-1, 1].flatMap((side) => [from, to].map((cut) => ({ side, cut }))))
    .map(({ side, cut }) => `M${at(side * h, cut)}H${x(side * (h - 0.06))}`)
    .join('');
  const battery = { x: -layout.driverSide * h * 0.5 - 0.16, y: bonnetM * 0.52, widthM: 0.32, lengthM: 0.19 };
  const poles = [
    `M${at(battery.x + 0.05, battery.y + 0.095)}h${px(0.07)}`,
    `M${at(battery.x + 0.2, battery.y + 0.095)}h${px(0.07)}`,
    `M${at(battery.x + 0.235, battery.y + 0.06)}v${px(0.07)}`,
  ].join('');
  return [
    { role: 'wheel', d: wheels.join('') },
    { role: 'mirror', d: mirrors },
    { role: 'body', d: bodyPath(body, pen) },
    { role: 'fine', d: bonnet + lip + doorCuts },
    { role: 'glass', d: pen.band(h * 0.86, bonnetM, h * 0.8, bonnetM + rakeM * 0.72, 0.12) },
    { role: 'battery', d: box(battery, 2) + poles },
  ];
}

/** Two seats in front, a bench behind, two small ones in a third row; the wheel before the driver. */
function seatShapes(body: VehicleBody, layout: PlanLayout, pen: Pen): PlanShape[] {
  const { box, at, x, y, px } = pen;
  const h = layout.halfWidthM;
  const pieces: string[] = [];
  const seat = (centre: number, start: number, widthM: number, lengthM = seatM) => {
    pieces.push(box({ x: centre - widthM / 2, y: start, widthM, lengthM }, 8));
    const back = {
      x: centre - widthM / 2 - 0.015,
      y: start + lengthM - 0.05,
      widthM: widthM + 0.03,
      lengthM: backM + 0.03,
    };
    pieces.push(box(back, 6));
  };
  layout.rowEnds.forEach((end, row) => {
    if (row === 0) {
      for (const side of [-1, 1]) seat(side * h * 0.43, end - backM - seatM, 0.52);
    } else if (row === 1) {
      const widthM = h * (body.doors === 2 ? 1.18 : 1.3);
      const lengthM = body.doors === 2 ? 0.36 : seatM;
      seat(0, end - backM - lengthM, widthM, lengthM);
      for (const side of [-1, 1]) pieces.push(`M${at(side * widthM * 0.17, end - backM - lengthM)}V${y(end)}`);
    } else {
      for (const side of [-1, 1]) seat(side * h * 0.36, end - backM - 0.38, 0.48, 0.38);
    }
  });
  const wheelX = layout.driverSide * h * 0.43;
  const wheelY = layout.dash[1] + 0.13;
  pieces.push(circlePath(x(wheelX), y(wheelY), px(0.165)));
  pieces.push(`M${at(wheelX - 0.165, wheelY)}H${x(wheelX + 0.165)}M${at(wheelX, wheelY)}V${y(wheelY + 0.165)}`);
  return pieces.map((d) => ({ role: 'seat', d }));
}

function drawnCover(cover: PlanCover, { at, x, y, px }: Pen): DrawnCover {
  const { area, bowM } = cover;
  const right = area.x + area.widthM;
  const back = area.y + area.lengthM;
  const inset = 0.045;
  const corners = [area.x + inset, right - inset].flatMap((cx) => [area.y + inset, back - inset].map((cy) => [cx, cy]));
  // A bowed panel's middle lies further forward than its corners, so its screws move with the edge.
  const d =
    bowM > 0
      ? `M${at(area.x, area.y)}Q${at(0, area.y - bowM)} ${at(right, area.y)}L${at(right + 0.01, back)}Q${at(0, back - bowM)} ${at(area.x - 0.01, back)}Z`
      : rectanglePath(x(area.x), y(area.y), px(area.widthM), px(area.lengthM));
  return {
    id: cover.id,
    name: cover.name,
    side: cover.side,
    d,
    screws: corners.map(([cx, cy]) => ({ x: x(cx), y: y(cy) })),
    badge: { x: x(cover.badge.x), y: y(cover.badge.y) },
  };
}

/** A ring smaller than this is no longer seen as one. */
const ringMinPx = 5.5;

function drawnPlace(place: PlanPlace, halfWidthM: number, { x, y, px }: Pen): DrawnPlace {
  const radiusPx = Math.max(px(place.radiusM), ringMinPx);
  const side = place.x < 0 ? -1 : 1;
  const centre = { x: x(place.x), y: y(place.y) };
  const label =
    place.label === 'outside'
      ? {
          x: x(side * (halfWidthM + 0.07)),
          y: centre.y + 4.5,
          anchor: side < 0 ? ('end' as const) : ('start' as const),
        }
      : place.label === 'above'
        ? { x: centre.x, y: rounded(centre.y - radiusPx - 4), anchor: 'middle' as const }
        : {
            x: rounded(centre.x - side * (radiusPx + 4)),
            y: centre.y + 4.5,
            anchor: side < 0 ? ('start' as const) : ('end' as const),
          };
  const leader =
    place.label === 'outside'
      ? `M${rounded(centre.x + side * radiusPx)} ${centre.y}H${x(side * (halfWidthM + 0.05))}`
      : null;
  return { id: place.id, name: place.name, ...centre, radiusPx: rounded(radiusPx), label, leader };
}

/**
 * The plan view of a body, nose up.
 *
 * @param options pxPerM > 0; at 90 px a metre all eight bodies fit a quarter of 1280 px
 * @returns shapes in px; the same body gives the same text
 */
export function planDrawing(body: VehicleBody, options: PlanDrawingOptions): PlanDrawing {
  const { hand, pxPerM, padX = 34, padY = 8 } = options;
  const layout = planLayout(body, hand);
  const pen = penFor(body, options);
  const front = frontShapes(body, layout, pen);
  const battery = front.filter(({ role }) => role === 'battery');
  const shapes = [
    ...front.filter(({ role }) => role !== 'battery'),
    ...seatShapes(body, layout, pen),
    ...tailShapes(body, layout, pen, outlineOf(body).tailHalf),
    ...battery,
  ];
  return {
    widthPx: Math.round(2 * padX + body.widthM * pxPerM),
    heightPx: Math.round(2 * padY + body.lengthM * pxPerM),
    shapes,
    covers: layout.covers.map((cover) => drawnCover(cover, pen)),
    places: layout.places.map((place) => drawnPlace(place, layout.halfWidthM, pen)),
  };
}
