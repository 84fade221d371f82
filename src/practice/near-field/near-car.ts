// A car to be walked with the microphone at every driver: its places in space, and the plan of its channels.
import type { SimulatedCar, SimulatedPlace } from '../car.ts';
import { driverOfKind } from '../car-drivers.ts';
import { carFromSeed } from '../car-from-seed.ts';
import { type Chance, chanceFrom } from '../chance.ts';
import type { CrossoverEdge } from '../crossover.ts';

/** One processor output with all that hangs on it, as planned. */
export interface NearOutput {
  id: string;
  /** Share of the left and of the right input. */
  in1: number;
  in2: number;
  amp: string;
  place: string;
  kind: string;
  /** -1 where the plan turns the output over on purpose. */
  polarity: 1 | -1;
  highPass: CrossoverEdge | null;
  lowPass: CrossoverEdge | null;
}

/** A place and the output meant for it; `at` in metres: right, forward, up. */
export interface NearPlace {
  output: NearOutput;
  place: SimulatedPlace;
  at: readonly [number, number, number];
  /** Which way the driver faces, a unit vector. */
  facing: readonly [number, number, number];
}

export interface NearCar {
  seed: number;
  car: SimulatedCar;
  places: NearPlace[];
  reversibleInputs: boolean;
}

/** Metres from the middle of the front floor, for the left side; the right one mirrors it. */
const SPOTS = {
  tweeter: { at: [-0.6, 1, 0.95], facing: [0.7, -0.7, 0.14] },
  mid: { at: [-0.63, 0.78, 0.78], facing: [0.6, -0.78, 0.18] },
  midbass: { at: [-0.74, 0.45, 0.25], facing: [1, 0, 0] },
  rear: { at: [-0.68, -0.9, 0.5], facing: [1, 0, 0] },
  sub: { at: [0.15, -1.6, 0.25], facing: [0, 1, 0] },
} as const satisfies Record<string, { at: readonly number[]; facing: readonly number[] }>;

type Spot = keyof typeof SPOTS;

const WORDS: Record<Spot, (side: string) => string> = {
  tweeter: (side) => `front ${side} tweeter`,
  mid: (side) => `front ${side} mid`,
  midbass: (side) => `front ${side} door`,
  rear: (side) => `rear ${side} coaxial`,
  sub: () => 'sub',
};

/** The two rear coaxials that some cars have: a cone that a small tweeter carries on to the top. */
function rears(car: SimulatedCar, chance: Chance): SimulatedPlace[] {
  const doors = car.places.filter(({ kind }) => kind === 'midbass');
  const highPass: CrossoverEdge = { family: 'butterworth', order: 2, fHz: Math.round(chance.between(90, 160)) };
  return doors.map((door, index) => {
    const own = chance.stream(index === 0 ? 'left' : 'right');
    const driver = driverOfKind('midbass', chance.stream('rear'), own);
    return {
      ...door,
      driver: { ...driver, inductanceH: driver.inductanceH / 6, breakupHz: 18_000, breakupQ: 0.7 },
      crossover: { highPass, lowPass: null },
      voltsPerFullScale: door.voltsPerFullScale * 10 ** (chance.between(-8, -3) / 20),
    };
  });
}

/** Families that processors offer besides the usual one. */
function withFamily(edge: CrossoverEdge | null, family: 'linkwitz-riley' | 'butterworth', order: number) {
  return edge && { ...edge, family, order };
}

const spotOf = (place: SimulatedPlace): Exclude<Spot, 'rear'> => place.kind;

/**
 * A car with its plan, all as planned.
 *
 * @param seed  0 .. 2^32 - 1
 * @returns 5 to 9 places; which of them have mids and rear coaxials, families, orders and deliberate inversions follow
 *   from the seed
 * Source: own method; a hatchback's usual places with a hand's breadth of scatter.
 */
export function nearCar(seed: number): NearCar {
  const car = carFromSeed(seed);
  const chance = chanceFrom(seed).stream('near');
  const [family, order] = (
    [
      ['linkwitz-riley', 4],
      ['linkwitz-riley', 4],
      ['linkwitz-riley', 2],
      ['butterworth', 3],
      ['butterworth', 4],
    ] as const
  )[Math.floor(chance.between(0, 5))];
  const turned = chance.between(0, 4) < 1 ? spotOf(car.places[0]) : null;
  const hasRears = chance.between(0, 5) < 2;
  const all: { place: SimulatedPlace; spot: Spot }[] = car.places.map((place) => ({ place, spot: spotOf(place) }));
  if (hasRears) {
    const more = rears(car, chance.stream('rears'));
    all.splice(all.length - 1, 0, ...more.map((place) => ({ place, spot: 'rear' as const })));
  }
  const places = all.map(({ place, spot }, index): NearPlace => {
    const side = place.feed.left === place.feed.right ? '' : place.feed.left > 0 ? 'left' : 'right';
    const { highPass, lowPass } = place.crossover;
    const own = spot === 'rear' ? [highPass, lowPass] : [highPass, lowPass].map((e) => withFamily(e, family, order));
    const output: NearOutput = {
      id: `out${index + 1}`,
      in1: place.feed.left,
      in2: place.feed.right,
      amp: `amp${index + 1}`,
      place: WORDS[spot](side),
      kind: spot === 'rear' ? 'coaxial' : place.kind,
      polarity: spot === turned ? -1 : 1,
      highPass: own[0],
      lowPass: own[1],
    };
    return {
      output,
      place: { ...place, crossover: { highPass: own[0], lowPass: own[1] } },
      ...whereIs(spot, side, chance.stream(output.place)),
    };
  });
  return { seed, car, places, reversibleInputs: chance.between(0, 2) < 1 };
}

function whereIs(spot: Spot, side: string, chance: Chance): Pick<NearPlace, 'at' | 'facing'> {
  const { at, facing } = SPOTS[spot];
  const mirror = side === 'right' ? -1 : 1;
  const moved = (value: number): number => value + chance.between(-0.06, 0.06);
  return {
    at: [mirror * moved(at[0]), moved(at[1]), moved(at[2])],
    facing: [mirror * facing[0], facing[1], facing[2]],
  };
}
