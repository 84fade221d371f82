// What a cabin does to each place, drawn from a seed; statistics like those of impulse responses taken in cars.
import type { CabinMode, CabinPath, Reflection, TailBand } from './cabin.ts';
import type { PlaceKind } from './car.ts';
import type { Chance } from './chance.ts';

/** `hard`: the driver faces away, and two reflections are about as strong as the direct sound. */
export type ReflectionKind = 'ordinary' | 'hard';

function reflections(kind: PlaceKind, reflectionKind: ReflectionKind, chance: Chance): Reflection[] {
  const list: Reflection[] = [];
  const count = Math.round(chance.between(6, 10));
  const strongest = { tweeter: 0.45, mid: 0.5, midbass: 0.55, sub: 0.45 }[kind];
  for (let k = 0; k < count; k++) {
    const lagS = chance.between(0.0003, 0.006);
    // Surfaces further round are hit later and weaker. Most are hard (same sign); edges and cavities turn some over.
    const gain = chance.sign(0.3) * chance.between(0.2, 1) * strongest * Math.exp(-lagS / 0.004);
    list.push({ lagS, gain, softAboveHz: chance.between(2500, 14_000) });
  }
  if (reflectionKind === 'hard') {
    for (let k = 0; k < 2; k++) {
      list.push({
        lagS: chance.between(0.00025, 0.0016),
        gain: chance.sign(0.15) * chance.between(0.5, 1.15),
        softAboveHz: chance.between(6000, 16_000),
      });
    }
  }
  return list;
}

/** Standing waves belong to the car; each place couples to them with its own strength and sign. */
export function cabinModes(chance: Chance): { fHz: number; q: number }[] {
  const middlesHz = [72, 108, 131, 149, 176, 204, 238];
  return middlesHz.map((fHz) => {
    const drawnHz = fHz * chance.between(0.92, 1.08);
    // 60 dB in 80 to 130 ms: Q = pi f T / (3 ln 10).
    return { fHz: drawnHz, q: (Math.PI * drawnHz * chance.between(0.08, 0.13)) / (3 * Math.LN10) };
  });
}

function coupled(modes: readonly { fHz: number; q: number }[], chance: Chance): CabinMode[] {
  return modes.map((mode) => ({ ...mode, gain: chance.sign(0.5) * chance.between(0.4, 2.2) }));
}

/** Late sound against direct, in bands: cabins soak up treble, and tweeters point at the listener. */
function tail(kind: PlaceKind, reflectionKind: ReflectionKind, chance: Chance): TailBand[] {
  const lift = (kind === 'tweeter' ? -3 : 0) + (reflectionKind === 'hard' ? 3 : 0);
  const band = (lowHz: number, highHz: number, decayLow: number, decayHigh: number, levelDb: number): TailBand => ({
    lowHz,
    highHz,
    decayS: chance.between(decayLow, decayHigh),
    levelDb: levelDb + lift + chance.between(-1.5, 1.5),
  });
  return [
    band(180, 500, 0.085, 0.105, 6.5),
    band(500, 1000, 0.07, 0.085, 4.5),
    band(1000, 3000, 0.06, 0.075, 3),
    band(3000, 8000, 0.055, 0.07, -0.5),
    band(8000, 20_000, 0.05, 0.065, -7.5),
  ];
}

/** Path of one place. `distanceM` from the layout. */
export function cabinPath(
  kind: PlaceKind,
  reflectionKind: ReflectionKind,
  distanceM: number,
  modes: readonly { fHz: number; q: number }[],
  chance: Chance,
): CabinPath {
  return {
    distanceM,
    offAxisDb: kind === 'tweeter' || kind === 'mid' ? chance.between(-6, 0) : 0,
    reflections: reflections(kind, reflectionKind, chance.stream('reflections')),
    modes: coupled(modes, chance.stream('modes')),
    tail: tail(kind, reflectionKind, chance.stream('tail')),
    tailSeed: chance.stream('late sound').seed,
  };
}
