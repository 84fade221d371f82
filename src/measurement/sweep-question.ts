// What is asked of one sweep.
import type { SweepSegment } from '../signals/track.ts';
import type { Anchor } from './anchor.ts';
import type { NoiseDensity } from './noise-density.ts';
import type { SweepImpulse } from './sweep-impulse.ts';

export interface SweepQuestion {
  segment: SweepSegment;
  impulse: SweepImpulse;
  noise: NoiseDensity | null;
  /** The time reference; absent where the take has none for this side. */
  anchor: Anchor | null;
  /** Time of the electrical reference re the sweep's own place, s; then the anchor is not asked. */
  referenceS?: number;
  /** Arrival window against the reference, s. */
  expectArrivalS: { from: number; to: number };
  smoothOctaves: number;
  bandHz: { low: number; high: number } | null;
  /** Where the recorder's own path lets sound through, Hz; null: as far as the sweep goes. */
  recordedHz?: { low: number | null; high: number | null };
  /** Gain to add to every level, dB over frequency: microphone and calibration. */
  correctionDb: (fHz: number) => number;
}
