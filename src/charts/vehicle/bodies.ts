// Eight kinds of vehicle body, each a few numbers: enough to draw a plan view that an installer recognises.

/** What follows the last row of seats and fills the rest of the length. */
export type Tail = 'boot' | 'hatch' | 'load' | 'bed' | 'cargo' | 'deck';

export type SteeringHand = 'left' | 'right';

/** A body in metres. */
export interface VehicleBody {
  name: string;
  lengthM: number;
  widthM: number;
  wheelbaseM: number;
  /** From the nose to the front axle. */
  frontM: number;
  /** From the nose to the windscreen's lower edge. */
  bonnetM: number;
  /** From there to the dash. */
  rakeM: number;
  /** Rows of seats, 1 .. 3. */
  rows: number;
  /** From one row to the next; 0 with one row. */
  rowPitchM: number;
  doors: 2 | 4;
  tail: Tail;
  /** 0 round .. 1 square: nose, shoulders and tail together. */
  boxy: number;
  spareWheel?: boolean;
}

export const bodyKinds = ['coupe', 'hatchback', 'sedan', 'estate', 'pickup', 'van', 'roadster', 'wagon'] as const;

export type BodyKind = (typeof bodyKinds)[number];

/** Typical sizes, of no vehicle in particular. */
export const vehicleBodies: Readonly<Record<BodyKind, VehicleBody>> = {
  coupe: body('Coupe', [4.42, 1.82, 2.6, 0.86, 1.14, 0.44], [2, 0.68], 2, 'boot', 0.05),
  hatchback: body('Hatchback', [4.02, 1.76, 2.54, 0.8, 0.94, 0.44], [2, 0.78], 4, 'hatch', 0.25),
  sedan: body('Sedan', [4.64, 1.8, 2.72, 0.86, 1.12, 0.44], [2, 0.82], 4, 'boot', 0.15),
  estate: body('Estate', [4.7, 1.8, 2.74, 0.86, 1.1, 0.44], [2, 0.8], 4, 'load', 0.35),
  pickup: body('Pickup, double cab', [5.28, 1.86, 3.18, 0.86, 1.18, 0.38], [2, 0.8], 4, 'bed', 0.7),
  van: body('Small van', [4.42, 1.82, 2.82, 0.84, 0.72, 0.46], [1, 0], 2, 'cargo', 0.6),
  roadster: body('Roadster, two seats', [3.94, 1.72, 2.32, 0.76, 1.26, 0.36], [1, 0], 2, 'deck', 0),
  wagon: {
    ...body('4x4 wagon, three rows', [4.9, 1.9, 2.86, 0.82, 1.08, 0.34], [3, 0.76], 4, 'load', 0.95),
    spareWheel: true,
  },
};

/** `sizes`: length, width, wheelbase, front, bonnet, rake, m. */
function body(
  name: string,
  sizes: [number, number, number, number, number, number],
  [rows, rowPitchM]: [number, number],
  doors: 2 | 4,
  tail: Tail,
  boxy: number,
): VehicleBody {
  const [lengthM, widthM, wheelbaseM, frontM, bonnetM, rakeM] = sizes;
  return { name, lengthM, widthM, wheelbaseM, frontM, bonnetM, rakeM, rows, rowPitchM, doors, tail, boxy };
}
