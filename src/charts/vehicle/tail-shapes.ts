// What lies behind the last row of seats: glass, lids, a bed, wheel arches.
import type { VehicleBody } from './bodies.ts';
import type { PlanLayout } from './layout.ts';
import type { Pen, PlanShape } from './plan-shapes.ts';

const sides = [-1, 1];

function bootShapes(lengthM: number, layout: PlanLayout, pen: Pen, tailHalf: number): PlanShape[] {
  const { at } = pen;
  const h = layout.halfWidthM;
  const c = layout.cabinEndM;
  const lid = sides.map((side) => `M${at(side * h * 0.84, c + 0.45)}L${at(side * tailHalf * 0.92, lengthM - 0.16)}`);
  const seam = `M${at(-h * 0.84, c + 0.45)}Q${at(0, c + 0.53)} ${at(h * 0.84, c + 0.45)}`;
  const lip = `M${at(-tailHalf * 0.9, lengthM - 0.1)}Q${at(0, lengthM - 0.03)} ${at(tailHalf * 0.9, lengthM - 0.1)}`;
  return [
    { role: 'glass', d: pen.band(h * 0.7, c + 0.29, h * 0.74, c + 0.43, -0.03) },
    { role: 'fine', d: seam + lid.join('') + lip },
  ];
}

function archLines(lengthM: number, layout: PlanLayout, { at, x, y }: Pen): PlanShape {
  const h = layout.halfWidthM;
  const [, rear] = layout.axles;
  const d = sides.map(
    (side) =>
      `M${at(side * (h - 0.04), rear - 0.34)}H${x(side * (h - 0.25))}V${y(Math.min(rear + 0.34, lengthM - 0.25))}H${x(side * (h - 0.04))}`,
  );
  return { role: 'fine', d: d.join('') };
}

function bedShapes(lengthM: number, layout: PlanLayout, { at, x, y }: Pen): PlanShape[] {
  const h = layout.halfWidthM;
  const c = layout.cabinEndM;
  const start = c + 0.2;
  const [, rear] = layout.axles;
  const ribs = Array.from(
    { length: 9 },
    (_, rib) => `M${at((rib - 4) * h * 0.155, start + 0.12)}V${y(lengthM - 0.17)}`,
  );
  const arches = sides.map(
    (side) =>
      `M${at(side * (h - 0.09), rear - 0.38)}H${x(side * (h - 0.27))}V${y(rear + 0.38)}H${x(side * (h - 0.09))}Z`,
  );
  return [
    { role: 'glass', d: `M${at(-h * 0.62, c + 0.135)}H${x(h * 0.62)}V${y(c + 0.175)}H${x(-h * 0.62)}Z` },
    { role: 'bulkhead', d: `M${at(-h, start)}H${x(h)}` },
    {
      role: 'bed',
      d: `M${at(-h + 0.09, start + 0.07)}H${x(h - 0.09)}V${y(lengthM - 0.12)}H${x(-h + 0.09)}Z`,
    },
    { role: 'fine', d: `${ribs.join('')}M${at(-h + 0.04, lengthM - 0.06)}H${x(h - 0.04)}` },
    { role: 'arch', d: arches.join('') },
  ];
}

function deckShapes(lengthM: number, layout: PlanLayout, { at }: Pen, tailHalf: number): PlanShape[] {
  const h = layout.halfWidthM;
  const c = layout.cabinEndM;
  const start = c + 0.27;
  const hoops = sides.map(
    (side) => `M${at(side * h * 0.62, c - 0.01)}Q${at(side * h * 0.43, c - 0.08)} ${at(side * h * 0.2, c - 0.01)}`,
  );
  const folds = [0.07, 0.13, 0.19].map(
    (step) => `M${at(-h * 0.76, start + step)}Q${at(0, start + step - 0.02)} ${at(h * 0.76, start + step)}`,
  );
  const lid = sides.map((side) => `M${at(side * h * 0.8, start + 0.27)}L${at(side * tailHalf * 0.9, lengthM - 0.16)}`);
  const lip = `M${at(-tailHalf * 0.9, lengthM - 0.12)}Q${at(0, lengthM - 0.05)} ${at(tailHalf * 0.9, lengthM - 0.12)}`;
  return [
    { role: 'bulkhead', d: hoops.join('') },
    {
      role: 'bed',
      d: `M${at(-h * 0.78, start)}Q${at(0, start - 0.05)} ${at(h * 0.78, start)}L${at(h * 0.74, start + 0.24)}Q${at(0, start + 0.3)} ${at(-h * 0.74, start + 0.24)}Z`,
    },
    { role: 'fine', d: folds.join('') + lid.join('') + lip },
  ];
}

/** The tail of a body. `tailHalf`: half the width of the body at its very end, m. */
export function tailShapes(body: VehicleBody, layout: PlanLayout, pen: Pen, tailHalf: number): PlanShape[] {
  const { at, x, y, band, box } = pen;
  const { lengthM, tail } = body;
  const h = layout.halfWidthM;
  const c = layout.cabinEndM;
  const shapes: PlanShape[] = [];
  if (tail === 'boot') shapes.push(...bootShapes(lengthM, layout, pen, tailHalf));
  if (tail === 'hatch')
    shapes.push({ role: 'glass', d: band(h * 0.68, lengthM - 0.21, h * 0.74, lengthM - 0.1, -0.03) });
  if (tail === 'load')
    shapes.push({ role: 'glass', d: band(h * 0.8, lengthM - 0.17, h * 0.82, lengthM - 0.09, -0.02) });
  if (tail === 'hatch' || tail === 'load' || tail === 'cargo') shapes.push(archLines(lengthM, layout, pen));
  if (tail === 'cargo') {
    const wall = `M${at(-h, c + 0.08)}H${x(-h * 0.12)}M${at(h * 0.12, c + 0.08)}H${x(h)}`;
    const doors = `M${at(-h, lengthM - 0.08)}H${x(h)}M${at(0, lengthM - 0.08)}V${y(lengthM - 0.01)}`;
    shapes.push({ role: 'bulkhead', d: wall }, { role: 'fine', d: doors });
  }
  if (tail === 'bed') shapes.push(...bedShapes(lengthM, layout, pen));
  if (tail === 'deck') shapes.push(...deckShapes(lengthM, layout, pen, tailHalf));
  if (body.spareWheel) {
    shapes.push({ role: 'tyre', d: box({ x: -0.36, y: lengthM - 0.005, widthM: 0.72, lengthM: 0.2 }, 5) });
  }
  return shapes;
}
