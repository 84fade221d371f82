// Seeded draws for building cars and noise: one stream per purpose, so that adding a draw to one leaves the others alone.
import { gauss, hash32, uniform } from '../base/random.ts';

/** A stream of repeatable draws. */
export interface Chance {
  /** Uniform in [low, high). */
  between(low: number, high: number): number;
  /** 1 or -1; -1 with probability `share`. */
  sign(share: number): number;
  /** A new stream that depends on this one's seed and `purpose` only. */
  stream(purpose: string): Chance;
  /** Seed for functions that take one. */
  readonly seed: number;
}

/** Mixes the letters of a purpose into a seed (FNV-1a over the hash). */
export function seedFor(seed: number, purpose: string): number {
  let h = (0x811c9dc5 ^ hash32(seed, 7919)) >>> 0;
  for (let k = 0; k < purpose.length; k++) h = Math.imul(h ^ purpose.charCodeAt(k), 0x01000193) >>> 0;
  return hash32(h, purpose.length);
}

export function chanceFrom(seed: number): Chance {
  let drawn = 0;
  return {
    seed,
    between: (low, high) => low + (high - low) * uniform(seed, drawn++),
    sign: (share) => (uniform(seed, drawn++) < share ? -1 : 1),
    stream: (purpose) => chanceFrom(seedFor(seed, purpose)),
  };
}

/** White Gaussian noise of rms 1. */
export function whiteNoise(seed: number, length: number): Float64Array {
  const out = new Float64Array(length);
  for (let n = 0; n < length; n++) out[n] = gauss(seed, n);
  return out;
}
