// A whole car from one number.

import { nominalBand, type PlaceId, type PlaceKind, type SimulatedCar, type SimulatedPlace } from './car.ts';
import { cabinModes, cabinPath, type ReflectionKind } from './car-cabin.ts';
import { driverOfKind } from './car-drivers.ts';
import { type Chance, chanceFrom } from './chance.ts';
import { magnitude } from './complex.ts';
import type { Crossover } from './crossover.ts';
import { driverResponse } from './driver.ts';
import { FULL_SCALE_PA } from './path.ts';

export interface CarOptions {
  /** Three-way fronts have mids; two-way doors play up to the tweeters. Default by the seed, two of three three-way. */
  system?: 'two-way' | 'three-way';
  /** Which side the driver sits; default by the seed. */
  seat?: 'left' | 'right';
}

/** Metres to the ear on the near and the far side of the car. */
const DISTANCE_M = {
  tweeter: { near: [0.75, 1.05], far: [1.15, 1.5] },
  mid: { near: [0.8, 1.1], far: [1.2, 1.55] },
  midbass: { near: [0.75, 1], far: [1.25, 1.6] },
  sub: { near: [1.5, 2.2], far: [1.5, 2.2] },
} as const;

/** Response in the pass band, direct sound, dB re recorded full scale per played full scale. */
const TARGET_DB = { tweeter: -29, mid: -26, midbass: -26, sub: -24 } as const;

function crossovers(system: 'two-way' | 'three-way', chance: Chance): Record<PlaceKind, Crossover> {
  const steep = (fHz: number) => ({ family: 'linkwitz-riley' as const, order: 4, fHz: Math.round(fHz) });
  const bass = steep(chance.between(62, 95));
  const middle = steep(chance.between(240, 420));
  const treble = steep(chance.between(2400, 3800));
  return {
    tweeter: { highPass: treble, lowPass: null },
    mid: { highPass: middle, lowPass: treble },
    midbass: { highPass: bass, lowPass: system === 'three-way' ? middle : treble },
    sub: { highPass: { family: 'butterworth', order: 2, fHz: Math.round(chance.between(18, 26)) }, lowPass: bass },
  };
}

/** Volts for full scale that bring the direct sound in the pass band to the level wanted, by the power mean. */
function voltsFor(place: SimulatedPlace, levelDb: number): number {
  const { lowHz, highHz } = nominalBand(place);
  let power = 0;
  for (let k = 0; k < 16; k++) {
    const fHz = lowHz * (highHz / lowHz) ** ((k + 0.5) / 16);
    power += magnitude(driverResponse(place.driver, fHz, 96_000)) ** 2 / 16;
  }
  const pascalPerVolt = Math.sqrt(power) / place.cabin.distanceM;
  return (FULL_SCALE_PA * 10 ** (levelDb / 20)) / pascalPerVolt;
}

/**
 * A car with its places, drawn from a seed. All wiring right, nothing clipped, no rattle: faults are planted after.
 *
 * @param seed     0 .. 2^32 - 1
 * @param kind     'hard': every driver faces away from the listener, so two early reflections rival its direct sound
 * @param options  what to fix instead of drawing it
 * @returns places in the order tweeters, mids, doors, sub; the sub plays half of each side
 * Source: own method; ranges from published car-audio driver sheets and cabin impulse responses.
 */
export function carFromSeed(seed: number, kind: ReflectionKind = 'ordinary', options: CarOptions = {}): SimulatedCar {
  const chance = chanceFrom(seed).stream('car');
  const system = options.system ?? (chance.between(0, 3) < 1 ? 'two-way' : 'three-way');
  const seat = options.seat ?? (chance.between(0, 4) < 3 ? 'left' : 'right');
  const channels = crossovers(system, chance.stream('crossovers'));
  const modes = cabinModes(chance.stream('modes'));
  const ids: [PlaceId, PlaceKind, 'left' | 'right' | 'both'][] = [
    ['tweeter-left', 'tweeter', 'left'],
    ['tweeter-right', 'tweeter', 'right'],
    ...(system === 'three-way'
      ? ([
          ['mid-left', 'mid', 'left'],
          ['mid-right', 'mid', 'right'],
        ] satisfies [PlaceId, PlaceKind, 'left' | 'right'][])
      : []),
    ['door-left', 'midbass', 'left'],
    ['door-right', 'midbass', 'right'],
    ['sub', 'sub', 'both'],
  ];
  const places = ids.map(([id, placeKind, side]): SimulatedPlace => {
    const own = chance.stream(id);
    const [nearest, farthest] = DISTANCE_M[placeKind][side === seat ? 'near' : 'far'];
    const bare: SimulatedPlace = {
      id,
      kind: placeKind,
      driver: driverOfKind(placeKind, chance.stream(placeKind), own.stream('driver')),
      crossover: channels[placeKind],
      wiringSign: 1,
      processorSign: 1,
      feed:
        side === 'both'
          ? { left: 0.5, right: 0.5 }
          : { left: side === 'left' ? 1 : 0, right: side === 'right' ? 1 : 0 },
      voltsPerFullScale: 1,
      clipVolts: Number.POSITIVE_INFINITY,
      channelDelayS: 0,
      hidden: [],
      cabin: cabinPath(placeKind, kind, own.between(nearest, farthest), modes, own.stream('cabin')),
      rattle: null,
    };
    return { ...bare, voltsPerFullScale: voltsFor(bare, TARGET_DB[placeKind] + own.between(-2, 2)) };
  });
  return {
    seed,
    places,
    zone: zoneOf(chance.stream('zone')),
    volumeDb: 0,
    sourceClipDbfs: Number.POSITIVE_INFINITY,
    airTemperatureC: chance.between(10, 30),
  };
}

function zoneOf(chance: Chance): SimulatedCar['zone'] {
  return { cornerHz: chance.between(55, 80), leakHz: chance.between(12, 22) };
}
