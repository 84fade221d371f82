// Linear chirps: short landmarks that matched filtering finds below the noise.
import { amplitudeFromDb } from '../base/decibel.ts';

/** The part of a marker segment that fixes its wave. */
export interface ChirpShape {
  durationS: number;
  fromHz: number;
  toHz: number;
  levelDbfs: number;
}

/**
 * A chirp from `fromHz` to `toHz` (falling if `toHz` is lower), raised-cosine edges over a quarter of its length each.
 *
 * @param shape   durationS > 0; frequencies > 0, Hz
 * @param rateHz  samples per second of the result, > 0 (need not be whole)
 * @returns round(durationS rateHz) samples, full scale = 1
 * Source: C. E. Cook, M. Bernfeld, Radar Signals, Academic Press 1967 (linear frequency modulation, edge taper).
 */
export function linearChirp(shape: ChirpShape, rateHz: number): Float64Array {
  const frames = Math.round(shape.durationS * rateHz);
  const edge = Math.floor(frames / 4);
  const amplitude = amplitudeFromDb(shape.levelDbfs);
  const out = new Float64Array(frames);
  for (let n = 0; n < frames; n++) {
    const t = n / rateHz;
    const fromEnd = Math.min(n, frames - 1 - n);
    const weight = fromEnd < edge ? 0.5 - 0.5 * Math.cos((Math.PI * (fromEnd + 0.5)) / edge) : 1;
    const turns = shape.fromHz * t + ((shape.toHz - shape.fromHz) * t * t) / (2 * shape.durationS);
    out[n] = amplitude * weight * Math.sin(2 * Math.PI * turns);
  }
  return out;
}
