// Which bands a sweep leaves free at a moment: what it played is long past, or not yet reached even by its harmonics.
import { type SweepShape, sweepConstantS } from '../../signals/sweep.ts';

/** Time for a car to die away by 60 dB, s, and periods that a mode rings on besides. */
const DECAY_S = 0.35;
const DECAY_PERIODS = 8;
/** Distance from the frequency that plays: the skirt of a frame's window. */
export const APART = 1.15;
/** Harmonics beyond this order lie under the background of a driver that is not hard against its stops. */
const HIGHEST_HARMONIC = 12;

/** Frequency that a sweep plays at `timeS` from its first sample, Hz; its end goes on for ever. */
export function playedHz(shape: SweepShape, timeS: number): number {
  return shape.fromHz * Math.exp(Math.min(Math.max(0, timeS), shape.durationS) / sweepConstantS(shape));
}

export interface FreeBands {
  /** Below this only the background sounds, Hz; 0 where no such band is. */
  belowHz: number;
  /** Above this only the background sounds, Hz. */
  aboveHz: number;
}

/**
 * The free bands of a frame from `fromS` to `toS` after the sweep's first sample.
 *
 * The car's decay depends on the frequency that decays, so the lower limit is the greatest f with
 * playedHz(fromS - 0.35 s - 8 / f) > 1.15 f; two rounds of the fixed point come within a percent.
 */
export function freeBands(shape: SweepShape, fromS: number, toS: number): FreeBands {
  const aboveHz = toS < 0 ? 0 : HIGHEST_HARMONIC * APART * playedHz(shape, toS);
  let belowHz = playedHz(shape, fromS - DECAY_S) / APART;
  for (let round = 0; round < 2 && belowHz > 0; round++) {
    const pastS = fromS - DECAY_S - DECAY_PERIODS / belowHz;
    belowHz = pastS <= 0 ? 0 : pastS > shape.durationS ? Number.MAX_VALUE : playedHz(shape, pastS) / APART;
  }
  return { belowHz, aboveHz };
}
