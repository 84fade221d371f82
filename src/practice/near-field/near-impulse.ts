// What the microphone hears four centimetres from one driver while every driver plays: one impulse response a side.
import { cabinImpulse, DIRECT_INDEX } from '../cabin.ts';
import { type SimulatedCar, type SimulatedPlace, soundSpeed } from '../car.ts';
import { cabinModes, cabinPath, type ReflectionKind } from '../car-cabin.ts';
import { type Chance, chanceFrom } from '../chance.ts';
import { addAt, addConvolved } from '../convolution.ts';
import { radiated } from '../path.ts';
import { filtered, highPass2 } from '../sections.ts';
import { SIDE_ZERO, withoutSilentEnd } from '../take-impulse.ts';
import type { NearCar } from './near-car.ts';
import type { PlaceFeed } from './wiring-faults.ts';

/** What a driver radiates at 1 m for a unit impulse in its channel; shared by all takes of a car. */
export interface Source {
  place: string;
  response: Float64Array;
  left: number;
  right: number;
}

const LEAD = 128;
const SOURCE_S = 0.25;

/** Every driver with what really feeds it. A driver keeps its place; crossover and level come with the output. */
export function sourcesOf(near: NearCar, feeds: readonly PlaceFeed[], rateHz: number): Source[] {
  const pulse = new Float64Array(LEAD + Math.ceil(SOURCE_S * rateHz));
  pulse[LEAD] = 1;
  return feeds.flatMap(({ place, output, left, right }): Source[] => {
    if (!output) return [];
    const own = near.places.find(({ output: planned }) => planned.place === place);
    const feeding = near.places.find(({ output: planned }) => planned === output);
    if (!own || !feeding) throw new RangeError(`this car has no place or output for ${place}`);
    const fed: SimulatedPlace = {
      ...own.place,
      crossover: feeding.place.crossover,
      hidden: feeding.place.hidden,
      voltsPerFullScale: feeding.place.voltsPerFullScale,
      wiringSign: 1,
      processorSign: 1,
    };
    return [{ place, response: withoutSilentEnd(radiated(near.car, fed, pulse, rateHz, true)), left, right }];
  });
}

/** Where the microphone is held. */
export interface MicrophoneSpot {
  at: readonly [number, number, number];
  /** From the cone of the driver it is held to, m. */
  distanceM: number;
}

/** A spot `distanceM` in front of a driver. */
export function spotBefore(near: NearCar, place: string, distanceM: number): MicrophoneSpot {
  const found = near.places.find(({ output }) => output.place === place);
  if (!found) throw new RangeError(`this car has no ${place}`);
  const [x, y, z] = found.at;
  const [u, v, w] = found.facing;
  return { at: [x + distanceM * u, y + distanceM * v, z + distanceM * w], distanceM };
}

/**
 * Distance at which a point source would be as loud as a flat piston is on its axis, m.
 *
 * Pressure on the axis falls from rho a r0 (at the cone) as sqrt(r^2 + r0^2) - r, far away as r0^2 / (2 r).
 * Source: L. L. Beranek, Acoustics, 1954, section 4 (piston in a baffle, on the axis).
 */
export function pistonDistanceM(distanceM: number, coneAreaM2: number): number {
  const square = coneAreaM2 / Math.PI;
  return square / (2 * (Math.sqrt(distanceM * distanceM + square) - distanceM));
}

/** How far from a driver its room sound is as loud as it was drawn against the direct sound, m. */
const ROOM_M = 1;

/** Room and direct sound from one driver to a spot, from pressure at 1 m; the direct sound stands at `DIRECT_INDEX`. */
function pathImpulse(
  car: SimulatedCar,
  place: SimulatedPlace,
  distanceM: number,
  own: boolean,
  room: { modes: ReturnType<typeof cabinModes>; reflections: ReflectionKind; chance: Chance },
  rateHz: number,
): Float64Array {
  const path = { ...cabinPath(place.kind, room.reflections, ROOM_M, room.modes, room.chance), offAxisDb: 0 };
  const total = cabinImpulse(path, car.zone, rateHz);
  total[DIRECT_INDEX] += 1 / (own ? pistonDistanceM(distanceM, place.driver.coneAreaM2) : distanceM) - 1 / ROOM_M;
  return total;
}

/**
 * Impulse responses from the left and the right side of the file to a microphone spot, re recorded full scale; time zero
 * (the sample leaving the player) stands at `SIDE_ZERO`.
 *
 * Direct sound falls as 1 / r from every driver, from the one at the microphone as from a piston of its size; the room's
 * share is as loud everywhere, drawn anew for each driver and spot.
 */
export function nearImpulses(
  near: NearCar,
  sources: readonly Source[],
  spot: MicrophoneSpot & { place: string },
  rateHz: number,
  reflections: ReflectionKind = 'ordinary',
): { left: Float64Array; right: Float64Array } {
  const chance = chanceFrom(near.seed).stream('near room');
  const modes = cabinModes(chance.stream('modes'));
  const length = Math.ceil(0.8 * rateHz);
  const sides = { left: new Float64Array(length), right: new Float64Array(length) };
  for (const { place, response, left, right } of sources) {
    const found = near.places.find(({ output }) => output.place === place);
    if (!found) continue;
    const own = place === spot.place;
    const distanceM = own ? spot.distanceM : Math.hypot(...found.at.map((value, axis) => value - spot.at[axis]));
    const room = { modes, reflections, chance: chance.stream(`${place} at ${spot.place}`) };
    const path = pathImpulse(near.car, found.place, distanceM, own, room, rateHz);
    const microphone = withoutSilentEnd(filtered([highPass2(10, Math.SQRT1_2, rateHz)], path));
    const heard = new Float64Array(response.length + microphone.length);
    addConvolved(heard, microphone, response);
    const flightS = found.place.channelDelayS + distanceM / soundSpeed(near.car.airTemperatureC);
    // Whole samples: where a driver sits is not known to less than a centimetre anyway.
    const from = SIDE_ZERO - LEAD - DIRECT_INDEX + Math.round(flightS * rateHz);
    if (left !== 0) addAt(sides.left, heard, from, left);
    if (right !== 0) addAt(sides.right, heard, from, right);
  }
  return { left: withoutSilentEnd(sides.left), right: withoutSilentEnd(sides.right) };
}
