// What a simulated car is made of: places, what feeds them, and what they all share.
import type { CabinPath, PressureZone } from './cabin.ts';
import type { Crossover } from './crossover.ts';
import type { SimulatedDriver } from './driver.ts';

export type PlaceId = 'tweeter-left' | 'tweeter-right' | 'mid-left' | 'mid-right' | 'door-left' | 'door-right' | 'sub';

export type PlaceKind = 'tweeter' | 'mid' | 'midbass' | 'sub';

/** Share of each input side in what a place plays. */
export interface Feed {
  left: number;
  right: number;
}

/** A loose part that answers the cone with bursts of treble at and near one frequency, above a level. */
export interface Rattle {
  fHz: number;
  /** Quality of the resonance that must be excited. */
  q: number;
  /** Drive at `fHz` from which it buzzes, peak dBFS of the played file at volume 0 dB. */
  fromDbfs: number;
  /** Level of the bursts at the microphone, dB re recorded full scale. */
  levelDb: number;
}

/** One driver where it sits, with its channel. */
export interface SimulatedPlace {
  id: PlaceId;
  kind: PlaceKind;
  driver: SimulatedDriver;
  crossover: Crossover;
  /** 1, or -1 where plus and minus are swapped at the driver. */
  wiringSign: 1 | -1;
  /** 1, or -1 where the processor inverts on purpose. */
  processorSign: 1 | -1;
  feed: Feed;
  /** Volts at the driver for full scale in the file, in the pass band, at volume 0 dB. */
  voltsPerFullScale: number;
  /** Where its amplifier clips, V peak; Infinity: never. */
  clipVolts: number;
  /** Delay of its channel (processor setting, amplifier), s. */
  channelDelayS: number;
  /** Filters nobody told of: an all-pass of the factory path, for example. */
  hidden: readonly { kind: 'all-pass' | 'peaking'; fHz: number; q: number; gainDb: number }[];
  cabin: CabinPath;
  rattle: Rattle | null;
}

/** A whole simulated car. Plain data: a fault is a changed copy. */
export interface SimulatedCar {
  seed: number;
  places: readonly SimulatedPlace[];
  zone: PressureZone;
  /** Volume knob, dB; moves every place. */
  volumeDb: number;
  /** Where the source clips, peak dBFS of the file; Infinity: never. */
  sourceClipDbfs: number;
  airTemperatureC: number;
}

/** Metres per second in air: 331.3 sqrt(1 + T / 273.15), ideal gas. */
export function soundSpeed(temperatureC: number): number {
  return 331.3 * Math.sqrt(1 + temperatureC / 273.15);
}

/** Time from the file's sample to the first sound of a place at the microphone, s. */
export function directTimeS(car: SimulatedCar, place: SimulatedPlace): number {
  return place.channelDelayS + place.cabin.distanceM / soundSpeed(car.airTemperatureC);
}

/** The place of that name. @throws RangeError a car without it */
export function placeOf(car: SimulatedCar, id: PlaceId): SimulatedPlace {
  const place = car.places.find((candidate) => candidate.id === id);
  if (!place) throw new RangeError(`this car has ${car.places.map(({ id: name }) => name).join(', ')}, not ${id}`);
  return place;
}

/** The same car with one place changed. */
export function withPlace(car: SimulatedCar, id: PlaceId, change: Partial<SimulatedPlace>): SimulatedCar {
  placeOf(car, id);
  return { ...car, places: car.places.map((place) => (place.id === id ? { ...place, ...change } : place)) };
}

/** Band in which a place plays, between the corners of its crossover, Hz; open ends as the kind allows. */
export function nominalBand(place: SimulatedPlace): { lowHz: number; highHz: number } {
  const openLowHz = { tweeter: 1500, mid: 150, midbass: 60, sub: 25 }[place.kind];
  const openHighHz = { tweeter: 18_000, mid: 6000, midbass: 3000, sub: 120 }[place.kind];
  return {
    lowHz: place.crossover.highPass?.fHz ?? openLowHz,
    highHz: place.crossover.lowPass?.fHz ?? openHighHz,
  };
}
