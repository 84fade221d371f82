// Faults of the car: wiring, routing, overload, and what a factory path hides.

import type { Side } from '../../signals/track.ts';
import { type PlaceId, placeOf, withPlace } from '../car.ts';
import type { TakeRequest } from '../take-request.ts';
import { type FaultyWorld, truthOf } from './fault.ts';

/** Plus and minus swapped at a driver. Nothing is wrong with the recording: the sign of the polarity says it. */
export function reversedDriver(world: TakeRequest, place: PlaceId): FaultyWorld {
  const wiringSign = placeOf(world.car, place).wiringSign === 1 ? -1 : 1;
  return {
    world: { ...world, car: withPlace(world.car, place, { wiringSign }) },
    truth: truthOf('reversed-driver', { usable: true, detail: { place } }),
  };
}

/** Outputs are fed from the other side: left and right swapped before the processor. */
export function sidesSwapped(world: TakeRequest): FaultyWorld {
  const flip = (side: Side | undefined): Side | undefined =>
    side === 'left' ? 'right' : side === 'right' ? 'left' : side;
  const places = world.car.places.map((place) => ({
    ...place,
    feed: { left: place.feed.right, right: place.feed.left },
  }));
  const on = world.on.map((entry) => {
    const side = typeof entry === 'string' ? undefined : flip(entry.side);
    return typeof entry === 'string' || !side ? entry : { ...entry, side };
  });
  return {
    world: { ...world, car: { ...world.car, places }, on },
    truth: truthOf('sides-swapped', {
      mustFlag: ['side-mixed'],
      mayAlsoFlag: ['no-markers', 'low-snr', 'band-limited'],
      usable: false,
    }),
  };
}

/** Every output plays a mono sum: the markers come through the driver on test too, and the stimulus through the anchor. */
export function sidesMixed(world: TakeRequest): FaultyWorld {
  const on = world.on.map((entry) => ({
    place: typeof entry === 'string' ? entry : entry.place,
    side: 'both' as const,
  }));
  return {
    world: { ...world, on },
    truth: truthOf('sides-mixed', { mustFlag: ['side-mixed'], mayAlsoFlag: ['no-markers', 'low-snr'], usable: false }),
  };
}

/** The place that should be heard is mute: its lead is off, or on another terminal. */
export function mutedPlace(world: TakeRequest, place: PlaceId): FaultyWorld {
  const on = world.on.filter((entry) => (typeof entry === 'string' ? entry : entry.place) !== place);
  return {
    world: { ...world, on },
    truth: truthOf('muted-place', {
      mayAlsoFlag: ['low-snr', 'silent', 'no-markers'],
      usable: false,
      detail: { place },
    }),
  };
}

/** Another place answers the channel of `place`: two leads are swapped. */
export function leadsSwapped(world: TakeRequest, place: PlaceId, other: PlaceId): FaultyWorld {
  const first = placeOf(world.car, place);
  const second = placeOf(world.car, other);
  // Channels (crossover, feed, volts, delay) stay with their outputs; drivers and cabins trade places.
  const channelOf = ({
    crossover,
    feed,
    voltsPerFullScale,
    channelDelayS,
    processorSign,
    clipVolts,
  }: typeof first) => ({
    crossover,
    feed,
    voltsPerFullScale,
    channelDelayS,
    processorSign,
    clipVolts,
  });
  const car = withPlace(withPlace(world.car, place, channelOf(second)), other, channelOf(first));
  const swapped = world.on.map((entry) => {
    const id = typeof entry === 'string' ? entry : entry.place;
    const heard = id === place ? other : id === other ? place : id;
    const side = typeof entry === 'string' ? undefined : entry.side;
    return side ? { place: heard, side } : heard;
  });
  return { world: { ...world, car, on: swapped }, truth: truthOf('leads-swapped', { detail: { place, other } }) };
}

/** A filter nobody told of turns the phase in the middle of a band. */
export function hiddenAllPass(world: TakeRequest, place: PlaceId, fHz: number, q = 0.8): FaultyWorld {
  const { hidden } = placeOf(world.car, place);
  const car = withPlace(world.car, place, { hidden: [...hidden, { kind: 'all-pass', fHz, q, gainDb: 0 }] });
  return { world: { ...world, car }, truth: truthOf('hidden-all-pass', { usable: true, detail: { place, fHz, q } }) };
}

/** The volume is turned up until cones run out of stroke; renders nonlinear. */
export function drivenHard(world: TakeRequest, volumeDb = 20): FaultyWorld {
  return {
    world: { ...world, mode: 'nonlinear', car: { ...world.car, volumeDb } },
    truth: truthOf('driven-hard', { mayAlsoFlag: ['clipped-digital'], detail: { volumeDb, cause: 'driver' } }),
  };
}

/** One amplifier clips at the volts that a full-scale file would ask for at `clipDbfs`; renders nonlinear. */
export function amplifierClips(world: TakeRequest, place: PlaceId, clipDbfs = -15): FaultyWorld {
  const clipVolts = placeOf(world.car, place).voltsPerFullScale * 10 ** ((clipDbfs + world.car.volumeDb) / 20);
  return {
    world: { ...world, mode: 'nonlinear', car: withPlace(world.car, place, { clipVolts }) },
    truth: truthOf('amplifier-clips', { usable: true, detail: { place, clipDbfs, cause: 'amplifier' } }),
  };
}

/** The source clips everything it plays at this peak; renders nonlinear. */
export function sourceClips(world: TakeRequest, clipDbfs = -15): FaultyWorld {
  return {
    world: { ...world, mode: 'nonlinear', car: { ...world.car, sourceClipDbfs: clipDbfs } },
    truth: truthOf('source-clips', { usable: true, detail: { clipDbfs, cause: 'source' } }),
  };
}

/** A loose part buzzes near `fHz` from `fromDbfs` of the file on. */
export function looseTrim(world: TakeRequest, place: PlaceId, fHz = 110, fromDbfs = -20): FaultyWorld {
  const levelDb = -45 + world.car.volumeDb;
  const rattle = { fHz, q: 6, fromDbfs: fromDbfs + world.car.volumeDb, levelDb };
  return {
    world: { ...world, car: withPlace(world.car, place, { rattle }) },
    truth: truthOf('loose-trim', { usable: true, detail: { place, fHz, fromDbfs, levelDb } }),
  };
}
