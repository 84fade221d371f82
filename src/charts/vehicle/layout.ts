// Where the covers, places, seats and wheels of a body lie, in metres: x from the centre line (left negative), y from the nose.
import type { SteeringHand, VehicleBody } from './bodies.ts';

export interface Area {
  x: number;
  y: number;
  widthM: number;
  lengthM: number;
}

/** A panel that hides work. */
export interface PlanCover {
  /** A letter; I is left out because it looks like a 1. */
  id: string;
  name: string;
  /** -1: its callout stands on the left, 1: on the right. */
  side: -1 | 1;
  area: Area;
  /** How far its front and back edge bow forward, m. */
  bowM: number;
  /** Where its letter stands. */
  badge: { x: number; y: number };
}

/** A spot where a driver sits. */
export interface PlanPlace {
  /** P1, P2 ... */
  id: string;
  name: string;
  x: number;
  y: number;
  radiusM: number;
  /** Its number stands outside the body, beside it within, or above it. */
  label: 'outside' | 'inside' | 'above';
}

export interface PlanLayout {
  halfWidthM: number;
  /** Front and back edge of the dash. */
  dash: [number, number];
  /** Back of each row of seats. */
  rowEnds: number[];
  cabinEndM: number;
  /** 1: the wheel is on the right, -1: on the left. */
  driverSide: -1 | 1;
  covers: PlanCover[];
  places: PlanPlace[];
  /** Front and rear axle. */
  axles: [number, number];
  /** Front and back edge of each door opening on one side. */
  doors: [number, number][];
}

const dashM = 0.23;
const kneeM = 0.26;
export const seatM = 0.46;
export const backM = 0.12;
const cardM = 0.17;
const edgeM = 0.035;
const archM = 0.24;

interface CoverDraft extends Omit<PlanCover, 'id' | 'badge' | 'bowM'> {
  badge?: { x: number; y: number };
  bowM?: number;
}

interface Drafts {
  covers: CoverDraft[];
  places: Omit<PlanPlace, 'id'>[];
}

/** What the tails need to know of the cabin. */
interface Cabin extends Omit<PlanLayout, 'covers' | 'places'> {
  innerM: number;
}

const area = (x: number, y: number, widthM: number, lengthM: number): Area => ({ x, y, widthM, lengthM });

function atSide(innerM: number, side: -1 | 1, y: number, widthM: number, lengthM: number): Area {
  return area(side < 0 ? -innerM : innerM - widthM, y, widthM, lengthM);
}

const bothSides = [-1, 1] as const;
const sideName = (side: -1 | 1) => (side < 0 ? 'left' : 'right');
const sideTitle = (side: -1 | 1) => (side < 0 ? 'Left' : 'Right');

function cabinOf(body: VehicleBody, hand: SteeringHand): Cabin {
  const halfWidthM = body.widthM / 2;
  const dashStart = body.bonnetM + body.rakeM + 0.03;
  const dash: [number, number] = [dashStart, dashStart + dashM];
  const rowEnds = Array.from({ length: body.rows }, (_, row) => dash[1] + kneeM + seatM + backM + row * body.rowPitchM);
  const doorEnd = rowEnds[0] - (body.doors === 2 ? -0.02 : 0.1);
  const doors: [number, number][] = [[dash[0] + 0.05, doorEnd + 0.06]];
  if (body.doors === 4) doors.push([doorEnd + 0.06, rowEnds[1] - 0.06]);
  return {
    halfWidthM,
    dash,
    rowEnds,
    cabinEndM: rowEnds[rowEnds.length - 1] + 0.03,
    driverSide: hand === 'right' ? 1 : -1,
    axles: [body.frontM, body.frontM + body.wheelbaseM],
    doors,
    innerM: halfWidthM - edgeM,
  };
}

/** Dash, kick panel, doors and quarters. */
function cabinDrafts(body: VehicleBody, cabin: Cabin): Drafts {
  const { halfWidthM: h, dash, rowEnds, driverSide, innerM } = cabin;
  const far = -driverSide as -1 | 1;
  const drafts: Drafts = { covers: [], places: [] };
  drafts.covers.push({
    name: 'Dash top',
    side: far,
    area: area(-h * 0.8, dash[0], h * 1.6, dashM),
    bowM: 0.1,
    badge: { x: 0, y: dash[0] + dashM / 2 - 0.045 },
  });
  drafts.covers.push({
    name: 'Kick panel',
    side: driverSide,
    area: atSide(innerM, driverSide, dash[1] + 0.02, 0.17, 0.15),
  });
  for (const side of bothSides) {
    const place = { x: side * h * 0.66, y: dash[0] + 0.13, radiusM: 0.055, label: 'inside' as const };
    drafts.places.push({ name: `Dash top, ${sideName(side)}`, ...place });
  }
  const doorEnd = rowEnds[0] - (body.doors === 2 ? -0.02 : 0.1);
  const doorStart = dash[1] + 0.19;
  for (const side of bothSides) {
    const card = atSide(innerM, side, doorStart, cardM, doorEnd - doorStart);
    drafts.covers.push({
      name: `${sideTitle(side)} ${body.doors === 4 ? 'front door' : 'door card'}`,
      side,
      area: card,
    });
    const place = { x: side * (innerM - cardM / 2), y: doorEnd - 0.13, radiusM: 0.082, label: 'outside' as const };
    drafts.places.push({ name: `${sideTitle(side)} door`, ...place });
  }
  if (rowEnds.length < 2) return drafts;
  const rear =
    body.doors === 4 ? { from: 0.06, less: 0.18, placeEnd: 0.13 } : { from: 0.12, less: 0.16, placeEnd: 0.12 };
  for (const side of bothSides) {
    const start = rowEnds[0] + rear.from;
    const lengthM = body.rowPitchM - rear.less;
    const name = body.doors === 4 ? `${sideTitle(side)} rear door` : `${sideTitle(side)} quarter`;
    drafts.covers.push({ name, side, area: atSide(innerM, side, start, cardM, lengthM) });
    drafts.places.push({
      name: body.doors === 4 ? `Rear door, ${sideName(side)}` : `Quarter, ${sideName(side)}`,
      x: side * (innerM - cardM / 2),
      y: start + lengthM - rear.placeEnd,
      radiusM: 0.072,
      label: 'outside',
    });
  }
  return drafts;
}

/** The driver's seat base, where a power block often sits. */
function seatBase({ halfWidthM: h, dash, driverSide: d }: Cabin): CoverDraft {
  return {
    name: "Driver's seat base",
    side: d,
    area: area(d * h * 0.43 - 0.25, dash[1] + kneeM + 0.02, 0.5, seatM - 0.05),
    badge: { x: d * h * 0.43 + d * 0.13, y: dash[1] + kneeM + 0.33 },
  };
}

function tailDrafts(body: VehicleBody, cabin: Cabin): Drafts {
  const { halfWidthM: h, rowEnds, driverSide: d, cabinEndM: start, innerM } = cabin;
  const far = -d as -1 | 1;
  const lengthM = body.lengthM;
  const floorM = body.widthM - 2 * (edgeM + archM);
  const covers: CoverDraft[] = [];
  const places: Omit<PlanPlace, 'id'>[] = [];
  const deep = (name: string, x: number, y: number, radiusM: number) =>
    places.push({ name, x, y, radiusM, label: 'above' });
  if (body.tail === 'boot') {
    const [from, to] = [start + 0.5, lengthM - 0.13];
    const middle = (from + to) / 2;
    covers.push({
      name: 'Parcel shelf',
      side: far,
      area: area(-h * 0.66, start + 0.02, h * 1.32, 0.22),
      badge: { x: far * h * 0.5, y: start + 0.13 },
    });
    covers.push({
      name: 'Boot floor',
      side: d,
      area: area(-floorM / 2, from, floorM, to - from),
      badge: { x: d * (floorM / 2 - 0.17), y: middle },
    });
    deep('Boot', -d * floorM * 0.16, middle, Math.min(0.19, (to - from) / 2 - 0.05));
  } else if (body.tail === 'hatch' || body.tail === 'load') {
    const [from, to] = [start + 0.04, lengthM - (body.tail === 'hatch' ? 0.24 : 0.22)];
    const sideTrim = body.tail === 'load' && to - from > 0.5;
    if (sideTrim) {
      covers.push({
        name: 'Load side trim',
        side: far,
        area: atSide(innerM, far, from, archM - 0.02, to - from - 0.02),
      });
      deep('Behind the load side', far * (floorM / 2 - 0.24), to - 0.24, 0.18);
    } else {
      covers.push(seatBase(cabin));
      deep('Under the load floor', -d * 0.12, (from + to) / 2, 0.17);
    }
    covers.push({
      name: 'Load floor',
      side: sideTrim ? d : far,
      area: area(-floorM / 2, from, floorM, to - from),
      badge: { x: sideTrim ? d * (floorM / 2 - 0.18) : far * (floorM / 2 - 0.16), y: from + 0.17 },
    });
  } else if (body.tail === 'bed') {
    const bench = rowEnds[1] - backM - seatM;
    covers.push({
      name: 'Rear bench lid',
      side: far,
      area: area(-h * 0.62, bench + 0.02, h * 1.24, seatM - 0.06),
      badge: { x: far * h * 0.44, y: rowEnds[1] - backM - 0.26 },
    });
    covers.push({
      name: 'Back wall',
      side: d,
      area: area(-h * 0.72, start, h * 1.44, 0.13),
      badge: { x: d * h * 0.5, y: start + 0.065 },
    });
    deep('Under the rear bench', -far * h * 0.28, rowEnds[1] - backM - seatM / 2 - 0.01, 0.155);
  } else if (body.tail === 'cargo') {
    const [from, to] = [start + 0.2, lengthM - 0.16];
    covers.push(seatBase(cabin));
    covers.push({ name: 'Load side trim', side: far, area: atSide(innerM, far, from, 0.2, to - from) });
    covers.push({
      name: 'Load floor',
      side: d,
      area: area(-floorM / 2, from, floorM, to - from),
      badge: { x: d * (floorM / 2 - 0.18), y: from + 0.6 },
    });
    for (const side of bothSides) {
      const place = { x: side * h * 0.6, y: start + 0.2, radiusM: 0.07, label: 'inside' as const };
      places.push({ name: `Bulkhead, ${sideName(side)}`, ...place });
    }
    deep('Behind the load side', far * (innerM - 0.1) - far * 0.16, lengthM - 0.42, 0.17);
  } else {
    covers.push({
      name: 'Behind the seats',
      side: far,
      area: area(-h * 0.62, start + 0.01, h * 1.24, 0.2),
      badge: { x: far * h * 0.46, y: start + 0.11 },
    });
    deep('Behind the seats', -far * h * 0.1, start + 0.11, 0.09);
    covers.push({
      name: 'Boot floor',
      side: d,
      area: area(-floorM / 2 + 0.05, start + 0.56, floorM - 0.1, Math.max(0.2, lengthM - 0.18 - start - 0.56)),
      badge: { x: d * (floorM / 2 - 0.24), y: start + 0.8 },
    });
  }
  return { covers, places };
}

/**
 * The plan of a body.
 *
 * Everything hangs on the cowl: bonnet and rake give the dash, the dash the first row, the pitch the rows behind it; the
 * tail takes what length is left. Cover letters run down the left side, then down the right, so that callout leaders do
 * not cross; place numbers run front to back, left before right, the deepest last. A change of hand moves the covers that
 * follow the driver, so letters are made anew: a job that has begun keeps the ones it has.
 *
 * @returns lengths in metres; x from the centre line, left negative; y from the nose
 */
export function planLayout(body: VehicleBody, hand: SteeringHand): PlanLayout {
  const { innerM: _, ...cabin } = cabinOf(body, hand);
  const parts = [cabinDrafts(body, cabinOf(body, hand)), tailDrafts(body, cabinOf(body, hand))];
  const covers = parts
    .flatMap((part) => part.covers)
    .sort((a, b) => a.side - b.side || a.area.y - b.area.y)
    .map((cover, index) => ({
      ...cover,
      id: 'ABCDEFGHJKLM'[index],
      bowM: cover.bowM ?? 0,
      badge: cover.badge ?? {
        x: cover.area.x + cover.area.widthM / 2,
        y: cover.area.y + Math.min(cover.area.lengthM / 2, 0.14),
      },
    }));
  const row = ({ y }: { y: number }) => Math.round(y * 20);
  const isDeep = ({ label }: { label: string }) => (label === 'above' ? 1 : 0);
  const places = parts
    .flatMap((part) => part.places)
    .sort((a, b) => isDeep(a) - isDeep(b) || row(a) - row(b) || a.x - b.x)
    .map((place, index) => ({ ...place, id: `P${index + 1}` }));
  return { ...cabin, covers, places };
}

/** Ids of the places that lie behind a cover. */
export function placesBehind(layout: PlanLayout, coverId: string): string[] {
  const cover = layout.covers.find(({ id }) => id === coverId);
  if (!cover) return [];
  const { area, bowM } = cover;
  const inside = ({ x, y }: PlanPlace) =>
    x >= area.x && x <= area.x + area.widthM && y >= area.y - bowM && y <= area.y + area.lengthM;
  return layout.places.filter(inside).map(({ id }) => id);
}
