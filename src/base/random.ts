// Repeatable random numbers: a counter-based hash, so that any sample can be made again without those before it.

/**
 * 32 well-mixed bits for position `n` of the sequence `seed`.
 *
 * @param seed 0 .. 2^32 - 1 (taken modulo 2^32)
 * @param n    0 .. 2^32 - 1
 * @returns integer 0 .. 2^32 - 1
 * Source: the finaliser of MurmurHash3 (A. Appleby, public domain) over a Weyl sequence of the golden ratio.
 */
export function hash32(seed: number, n: number): number {
  let h = (seed + Math.imul(n + 1, 0x9e3779b9)) >>> 0;
  h ^= h >>> 16;
  h = Math.imul(h, 0x85ebca6b);
  h ^= h >>> 13;
  h = Math.imul(h, 0xc2b2ae35);
  h ^= h >>> 16;
  return h >>> 0;
}

/** Uniform number in (0, 1) for position `n` of the sequence `seed`. */
export function uniform(seed: number, n: number): number {
  return (hash32(seed, n) + 0.5) / 4294967296;
}

/** Normally distributed number (mean 0, variance 1) for position `n`, by Box and Muller (1958). */
export function gauss(seed: number, n: number): number {
  return Math.sqrt(-2 * Math.log(uniform(seed, 2 * n))) * Math.cos(2 * Math.PI * uniform(seed, 2 * n + 1));
}
