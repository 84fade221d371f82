// What a microphone hears in a car that plays nothing: rumble, air, the recorder's own hiss, and engine lines.
import { chanceFrom, seedFor, whiteNoise } from './chance.ts';
import { addAt } from './convolution.ts';
import { filtered, highPass1, highPass2, highShelf1, lowPass1, lowPass2 } from './sections.ts';

/** Stationary noise at the recorder. */
export interface AmbientNoise {
  /** Rms of all of it, dB re a full-scale square (a full-scale sine reads -3). */
  levelDb: number;
  /**
   * 'parked': rumble falling with frequency over a floor of hiss; 'fan': as loud up to 3 kHz, then falling;
   * 'white': flat density.
   */
  character: 'parked' | 'fan' | 'white';
  /** Lines of a running engine, each with its level against the noise's own, dB; none when empty. */
  lines: readonly { fHz: number; levelDb: number }[];
}

export const QUIET_CABIN: AmbientNoise = { levelDb: -76, character: 'parked', lines: [] };

function rmsOf(signal: Float64Array): number {
  let power = 0;
  for (let n = 0; n < signal.length; n++) power += signal[n] * signal[n];
  return Math.sqrt(power / Math.max(1, signal.length));
}

/** `signal` scaled to the rms given. */
function scaledToRms(signal: Float64Array, rms: number): Float64Array {
  const gain = rms / (rmsOf(signal) || 1);
  for (let n = 0; n < signal.length; n++) signal[n] *= gain;
  return signal;
}

function coloured(character: AmbientNoise['character'], seed: number, length: number, rateHz: number): Float64Array {
  const limit = (fHz: number) => Math.min(fHz, 0.45 * rateHz);
  if (character === 'white') return whiteNoise(seedFor(seed, 'white'), length);
  if (character === 'fan') {
    const air = filtered(
      [highPass2(90, 0.8, rateHz), lowPass1(limit(900), rateHz), lowPass2(limit(5000), Math.SQRT1_2, rateHz)],
      whiteNoise(seedFor(seed, 'fan'), length),
    );
    return scaledToRms(air, 1);
  }
  // Rumble falls by 6 dB per octave of density above 25 Hz, faster near 250; hiss takes over near 2 kHz.
  const rumble = filtered(
    [highPass1(18, rateHz), lowPass1(28, rateHz), highShelf1(250, -9, rateHz)],
    whiteNoise(seedFor(seed, 'rumble'), length),
  );
  scaledToRms(rumble, 1);
  const hiss = whiteNoise(seedFor(seed, 'hiss'), length);
  addAt(rumble, hiss, 0, 0.13 * Math.sqrt(rateHz / 48_000));
  return rumble;
}

/**
 * The noise of a whole recording.
 *
 * @returns length `length`, rms exactly `levelDb` when `lines` is empty (each line adds its own power)
 * Source: own model; spectrum and level like those of quiet recordings in parked cars.
 */
export function ambientNoise(noise: AmbientNoise, seed: number, length: number, rateHz: number): Float64Array {
  const rms = 10 ** (noise.levelDb / 20);
  const out = scaledToRms(coloured(noise.character, seed, length, rateHz), rms);
  const chance = chanceFrom(seedFor(seed, 'lines'));
  for (const { fHz, levelDb } of noise.lines) {
    const phase = chance.between(0, 2 * Math.PI);
    const peak = Math.SQRT2 * rms * 10 ** (levelDb / 20);
    if (fHz < rateHz / 2) {
      for (let n = 0; n < length; n++) out[n] += peak * Math.sin((2 * Math.PI * fHz * n) / rateHz + phase);
    }
  }
  return out;
}
