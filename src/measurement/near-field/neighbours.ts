// How much of what a microphone hears close to one driver comes from all the others.
import { type NearTake, type OneSide, POINTS_PER_OCTAVE } from './near-take.ts';

/** A driver a foot or more away against itself at 4 cm, by the law of 1 / r: usual, least and most, dB. */
const USUAL_COUPLING_DB = -20;
const LEAST_COUPLING_DB = -40;
const MOST_COUPLING_DB = -13;
/** Below these frequencies a cabin is a pressure chamber: what a cone gives spreads evenly. */
const CHAMBER_FROM_HZ = 200;
const CHAMBER_FULL_HZ = 25;
const CHAMBER_DB = 14;
/** A neighbour counts where it is within this of its own loudest, dB. */
const STRONG_DB = 15;
/** Share of points that may be higher than the coupling says: room and driver add to the neighbour's sound there. */
const LOW_SHARE = 0.2;
/** The middle of the room's scatter lies this much over that share, dB. */
const SCATTER_DB = 3;
/** Least signal to noise at which a point is known, power ratio. */
const KNOWN_SNR = 2;
/** A driver that plays is not further than this under the loudest place of the car, dB. */
const FAINTEST_DB = -27;

/** What one place gave, on one grid; index as the places were given. */
export interface PlaceSpectra {
  fHz: readonly number[];
  /** Signal power by side; 0 where it does not stand out of the noise. */
  signal: Record<OneSide, Float64Array>;
  noise: Record<OneSide, Float64Array>;
  /** Estimate of the others' part, by side. */
  others: Record<OneSide, Float64Array>;
  /** The most that a dead driver's place is taken to hear: the others at the usual distance, or the faintest driver. */
  dead: Record<OneSide, Float64Array>;
}

const sides: OneSide[] = ['left', 'right'];

const larger = (a: number, b: number): number => Math.max(a, b);

function lift(fHz: number): number {
  const way = Math.log2(CHAMBER_FROM_HZ / fHz) / Math.log2(CHAMBER_FROM_HZ / CHAMBER_FULL_HZ);
  return 10 ** ((CHAMBER_DB * Math.min(1, Math.max(0, way))) / 10);
}

function signalOf(take: NearTake, side: OneSide): { signal: Float64Array; noise: Float64Array } {
  const of = take[side];
  const noise = of ? of.noise.subarray(0, take.fHz.length) : new Float64Array(take.fHz.length);
  const signal = new Float64Array(take.fHz.length);
  if (of) {
    of.power.subarray(0, signal.length).forEach((power, k) => {
      signal[k] = power > (1 + KNOWN_SNR) * noise[k] ? power - noise[k] : 0;
    });
  }
  return { signal, noise };
}

/** Power that one place hears of another for one unit at the other: the least ratio that the strong points allow. */
function coupling(at: Record<OneSide, Float64Array>, of: Record<OneSide, Float64Array>, lifts: number[]): number {
  const ratios: number[] = [];
  for (const side of sides) {
    const loudest = of[side].reduce(larger, 0);
    of[side].forEach((power, k) => {
      if (power > 0 && power >= loudest * 10 ** (-STRONG_DB / 10)) ratios.push(at[side][k] / (power * lifts[k]));
    });
  }
  if (ratios.length < POINTS_PER_OCTAVE / 2) return 10 ** (USUAL_COUPLING_DB / 10);
  ratios.sort((a, b) => a - b);
  const low = ratios[Math.floor(LOW_SHARE * ratios.length)] * 10 ** (SCATTER_DB / 10);
  return Math.min(10 ** (MOST_COUPLING_DB / 10), Math.max(10 ** (LEAST_COUPLING_DB / 10), low));
}

/**
 * Spectra of all places with the share of the neighbours in each.
 *
 * What is heard at one place is its own driver and a share of every other: the others' spectra are known from their own
 * takes, their shares are not below 0 and hardly depend on frequency. The share is what the points leave room for.
 *
 * @param takes  one a place, all with the same `fHz`; an unusable one stands for no neighbour
 * @returns in the order given, null for unusable takes
 * Source: own method; 1 / r from a small source, L. L. Beranek, Acoustics, 1954, section 4.
 */
export function placeSpectra(takes: readonly NearTake[]): (PlaceSpectra | null)[] {
  const known = takes.map((take) => {
    if (!take.usable) return null;
    const [left, right] = sides.map((side) => signalOf(take, side));
    return {
      fHz: take.fHz,
      signal: { left: left.signal, right: right.signal },
      noise: { left: left.noise, right: right.noise },
    };
  });
  const loudest = Math.max(0, ...known.flatMap((own) => sides.map((side) => own?.signal[side].reduce(larger, 0) ?? 0)));
  const lifts = known.find((own) => own !== null)?.fHz.map(lift) ?? [];
  const shares = known.map((at, p) =>
    known.map((of, q) => (at && of && p !== q ? coupling(at.signal, of.signal, lifts) : 0)),
  );
  const own = ownParts(known, shares, lifts);
  return known.map((at, p): PlaceSpectra | null => {
    if (!at) return null;
    const others = { left: new Float64Array(lifts.length), right: new Float64Array(lifts.length) };
    const dead = { left: new Float64Array(lifts.length), right: new Float64Array(lifts.length) };
    for (const side of sides) {
      lifts.forEach((lifted, k) => {
        own.forEach((part, q) => {
          if (!part || q === p) return;
          others[side][k] += shares[p][q] * lifted * part[side][k];
          dead[side][k] += 10 ** (USUAL_COUPLING_DB / 10) * lifted * part[side][k];
        });
        dead[side][k] = Math.max(dead[side][k], loudest * 10 ** (FAINTEST_DB / 10));
      });
    }
    return { ...at, others, dead };
  });
}

type Sides = Record<OneSide, Float64Array>;

/**
 * What each place's own driver gives: from the loudest place at each frequency to the faintest, what the louder ones leave.
 *
 * A place that only hears another one must not count as its neighbour in turn.
 */
function ownParts(known: ({ signal: Sides } | null)[], shares: number[][], lifts: number[]): (Sides | null)[] {
  const parts = known.map((at) => at && { left: at.signal.left.slice(), right: at.signal.right.slice() });
  for (const side of sides) {
    for (let k = 0; k < lifts.length; k++) {
      const order = parts
        .flatMap((part, p) => (part && part[side][k] > 0 ? [p] : []))
        .sort((a, b) => (parts[b]?.[side][k] ?? 0) - (parts[a]?.[side][k] ?? 0));
      order.forEach((p, rank) => {
        const part = parts[p];
        if (!part) return;
        for (const q of order.slice(0, rank)) part[side][k] -= shares[p][q] * lifts[k] * (parts[q]?.[side][k] ?? 0);
        part[side][k] = Math.max(0, part[side][k]);
      });
    }
  }
  return parts;
}

/** How far a place stands over what it would hear with a dead driver. */
export interface Presence {
  /** In its best two thirds of an octave, dB, -60 .. 60. */
  levelDb: number;
  /** The same with the noise counted as sound: what noise may hide. */
  atMostDb: number;
  /** Where that is, Hz. */
  bandHz: { low: number; high: number };
}

/** Octaves over which presence is judged. */
const PRESENCE_OCTAVES = 2 / 3;

/**
 * How far a place stands over what it would hear with a dead driver, between two frequencies: below 6 dB where the driver is dead, 9 to 40 where it plays (docs/accuracy.md).
 */
export function presence(
  { fHz, signal, noise, dead }: PlaceSpectra,
  side: OneSide,
  bandHz: { low: number; high: number },
): Presence {
  const inside = fHz.flatMap((f, k) => (f >= bandHz.low && f <= bandHz.high ? [k] : []));
  const width = Math.max(2, Math.min(inside.length, Math.round(PRESENCE_OCTAVES * POINTS_PER_OCTAVE)));
  let best: Presence = { levelDb: -60, atMostDb: -60, bandHz };
  for (let from = 0; from + width <= inside.length; from++) {
    let level = 0;
    let most = 0;
    for (let i = from; i < from + width; i++) {
      const k = inside[i];
      const floor = Math.max(dead[side][k], 1e-30);
      level += (10 * Math.log10(Math.max(signal[side][k], 1e-30) / (floor + noise[side][k]))) / width;
      most += (10 * Math.log10((signal[side][k] + noise[side][k] + 1e-30) / floor)) / width;
    }
    const levelDb = Math.max(-60, level);
    if (levelDb > best.levelDb)
      best = { ...best, levelDb, bandHz: { low: fHz[inside[from]], high: fHz[inside[from + width - 1]] } };
    best = { ...best, atMostDb: Math.max(best.atMostDb, Math.min(60, most)) };
  }
  return best;
}
