// Takes of a noisy system from a recipe: tones, white noise and pops, made without any of the project's own code.

export interface NoiseRecipe {
  seconds?: number;
  rateHz?: number;
  /** Root mean square of the white noise re full scale. */
  hiss?: number;
  tones?: { fHz: number; rms: number }[];
  /** A decaying burst of 10 ms at `atS`. */
  pops?: { atS: number; peak: number }[];
  seed?: number;
}

/** A generator of its own: 32 bits of a multiply-and-shift counter. */
function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let word = Math.imul(state ^ (state >>> 15), 1 | state);
    word = (word + Math.imul(word ^ (word >>> 7), 61 | word)) ^ word;
    return ((word ^ (word >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Samples of one channel. */
export function simulatedNoise(recipe: NoiseRecipe): Float64Array {
  const { seconds = 5, rateHz = 16_000, hiss = 1e-3, tones = [], pops = [], seed = 1 } = recipe;
  const next = random(seed);
  const samples = new Float64Array(Math.round(seconds * rateHz));
  for (let n = 0; n < samples.length; n++) {
    // A sum of twelve even numbers less six has a standard deviation of one.
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += next();
    samples[n] = hiss * sum;
    for (const { fHz, rms } of tones) samples[n] += rms * Math.SQRT2 * Math.sin((2 * Math.PI * fHz * n) / rateHz + fHz);
    for (const { atS, peak } of pops) {
      const since = n / rateHz - atS;
      if (since >= 0 && since < 0.1) samples[n] += peak * Math.exp(-since / 0.01) * Math.cos(2 * Math.PI * 80 * since);
    }
  }
  return samples;
}

/** What an alternator of a pulley ratio and pole pairs whines at, and the tones of a failed diode under it. */
export function alternatorTones(rpm: number, ratio: number, polePairs: number): { phaseHz: number; rippleHz: number } {
  const phaseHz = (rpm / 60) * ratio * polePairs;
  return { phaseHz, rippleHz: 6 * phaseHz };
}
