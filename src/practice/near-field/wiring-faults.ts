// Wiring faults of a simulated car: drawn from a seed, and what then feeds each place.
import { type Chance, chanceFrom } from '../chance.ts';
import type { NearCar, NearOutput } from './near-car.ts';

/** What a place is fed: the output whose signal arrives there, and its share of each side; nulls: silent. */
export interface PlaceFeed {
  place: string;
  output: NearOutput | null;
  /** Gains of the left and right side of the file, signs of all that turns over included. */
  left: number;
  right: number;
}

/** `kind:layer:a+b` and its parts, as a walk names them. */
type FaultWord = string;

const parts = (word: FaultWord): string[] => word.split(':');

/** A list of names in which two, or a ring of several, have changed their seats. */
function exchanged(names: readonly string[], words: readonly FaultWord[], layer: string): string[] {
  const sits = [...names];
  for (const word of words) {
    const [kind, where, list] = parts(word);
    if (where !== layer || (kind !== 'swap' && kind !== 'cycle')) continue;
    const ring = list.split(kind === 'swap' ? '+' : '>');
    const seats = ring.map((name) => names.indexOf(name));
    // The lead of the first sits on the second, and so on; the last one's on the first.
    ring.forEach((_, i) => {
      sits[seats[i]] = names[seats[(i + 1) % ring.length]];
    });
  }
  return sits;
}

/**
 * What feeds each place when these faults are planted.
 *
 * @param faults  in the words of a walk: `swap:signal:amp1+amp3`, `open:speaker:sub`, `reversed:input:in2`, ...
 * @returns one entry a place, in the car's order
 */
export function feedsOf({ places }: Pick<NearCar, 'places'>, faults: readonly FaultWord[]): PlaceFeed[] {
  const outputs = places.map(({ output }) => output);
  const amps = exchanged(
    outputs.map(({ amp }) => amp),
    faults,
    'signal',
  );
  const ends = exchanged(
    outputs.map(({ place }) => place),
    faults,
    'speaker',
  );
  const has = (word: FaultWord): boolean => faults.includes(word);
  const input = (name: string): number => (has(`open:input:${name}`) ? 0 : has(`reversed:input:${name}`) ? -1 : 1);
  const crossed = has('swap:input:in1+in2');
  return outputs.map(({ place }): PlaceFeed => {
    const channel = ends.indexOf(place);
    const index = amps.indexOf(outputs[channel].amp);
    const output = outputs[index];
    const silent =
      has(`mute:${output.id}`) || has(`open:signal:${outputs[channel].amp}`) || has(`open:speaker:${place}`);
    const turned = (has(`invert:${output.id}`) ? -1 : 1) * (has(`reversed:speaker:${place}`) ? -1 : 1);
    // Adding 0 keeps a silent side from being -0.
    const one = output.in1 * input('in1') * turned * output.polarity + 0;
    const two = output.in2 * input('in2') * turned * output.polarity + 0;
    if (silent) return { place, output: null, left: 0, right: 0 };
    return { place, output, left: crossed ? two : one, right: crossed ? one : two };
  });
}

const pick = <Item>(items: readonly Item[], chance: Chance): Item => items[Math.floor(chance.between(0, items.length))];

/** One fault on leads that no fault has touched yet; null where the draw found none. */
function oneFault({ places, reversibleInputs }: NearCar, free: NearOutput[], chance: Chance): FaultWord | null {
  const outputs = places.map(({ output }) => output);
  const inOrder = (chosen: NearOutput[]): NearOutput[] => outputs.filter((output) => chosen.includes(output));
  const kind = chance.between(0, 12);
  if (kind < 3.5 && free.length >= 2) {
    const first = pick(free, chance);
    const second = pick(
      free.filter((output) => output !== first),
      chance,
    );
    const pair = inOrder([first, second]);
    return chance.between(0, 2) < 1
      ? `swap:signal:${pair.map(({ amp }) => amp).join('+')}`
      : `swap:speaker:${pair.map(({ place }) => place).join('+')}`;
  }
  const one = pick(free, chance);
  if (!one) return null;
  if (kind < 6.5) return pick([`mute:${one.id}`, `open:signal:${one.amp}`, `open:speaker:${one.place}`], chance);
  if (kind < 10) return pick([`invert:${one.id}`, `reversed:speaker:${one.place}`], chance);
  if (free.length < outputs.length) return null;
  if (kind < 11) return 'swap:input:in1+in2';
  const name = pick(['in1', 'in2'], chance);
  return reversibleInputs && kind < 11.5 ? `reversed:input:${name}` : `open:input:${name}`;
}

/**
 * Faults of the kinds that a walk can find, each on leads of its own; a fault of an input comes first or not at all.
 *
 * @param count  0 .. 3
 * @returns their names, sorted
 */
export function plantedFaults(near: NearCar, count: number, seed: number): string[] {
  if (!(Number.isInteger(count) && count >= 0 && count <= 3)) {
    throw new RangeError(`count must be a whole number 0..3, got ${count}`);
  }
  const chance = chanceFrom(seed).stream('faults');
  const faults: string[] = [];
  let free = near.places.map(({ output }) => output);
  for (let tries = 0; faults.length < count && tries < 200; tries++) {
    const word = oneFault(near, free, chance.stream(`fault ${tries}`));
    if (word === null || faults.includes(word)) continue;
    // An open side and what hangs on it would hide each other.
    if (word.includes(':input:') && faults.length > 0) continue;
    faults.push(word);
    const touched = word.split(':').at(-1)?.split(/[+>]/) ?? [];
    free = free.filter(({ id, amp, place }) => !touched.some((name) => name === id || name === amp || name === place));
    const side = /^open:input:in([12])$/.exec(word)?.[1];
    if (side) free = free.filter(({ in1, in2 }) => (side === '1' ? in1 : in2) === 0);
  }
  return faults.sort();
}
