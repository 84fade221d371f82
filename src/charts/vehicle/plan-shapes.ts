// What a drawn plan is made of, and the pen that draws it.
import type { Area } from './layout.ts';

/** What a shape is; the style sheet gives it its line and filling. */
export type PlanRole =
  | 'wheel'
  | 'mirror'
  | 'body'
  | 'fine'
  | 'glass'
  | 'seat'
  | 'bulkhead'
  | 'bed'
  | 'arch'
  | 'tyre'
  | 'battery';

export interface PlanShape {
  role: PlanRole;
  d: string;
}

export interface DrawnCover {
  id: string;
  name: string;
  side: -1 | 1;
  d: string;
  /** Where its four screws show once it is fastened, px. */
  screws: { x: number; y: number }[];
  badge: { x: number; y: number };
}

export interface DrawnPlace {
  id: string;
  name: string;
  x: number;
  y: number;
  radiusPx: number;
  label: { x: number; y: number; anchor: 'start' | 'middle' | 'end' };
  /** The short line to a number outside the body. */
  leader: string | null;
}

export interface PlanDrawing {
  widthPx: number;
  heightPx: number;
  /** In the order in which they are laid over each other. */
  shapes: PlanShape[];
  covers: DrawnCover[];
  places: DrawnPlace[];
}

/** Metres to screen places, and path pieces in metres. */
export interface Pen {
  x: (xM: number) => number;
  y: (yM: number) => number;
  px: (lengthM: number) => number;
  at: (xM: number, yM: number) => string;
  box: (area: Area, radiusPx?: number) => string;
  /** A band across the car, bowed forward by `bowM`. */
  band: (halfFrontM: number, frontM: number, halfBackM: number, backM: number, bowM: number) => string;
}
