// What a reading of a factory source says.
import type { Side } from '../../signals/track.ts';
import type { PhaseModel } from './excess-phase.ts';

export interface StepReading {
  step: number;
  take: string;
  /** Why it cannot be read; null where it can. */
  reason: string | null;
  /** Median over the pass band, dB re what was played; null where it cannot be read. */
  levelDb: number | null;
}

export interface OutputReading {
  output: string;
  side: Side | null;
  steps: StepReading[];
  /** Corners 6 dB under the pass band; null where it does not end within what was played. */
  lowHz: number | null;
  highHz: number | null;
  /** Third octaves inside the pass band against its median, at the lowest step. */
  shape: { fHz: number[]; levelDb: number[] };
  /** Against the earliest output of the same take; null where it was recorded alone. */
  delayMs: number | null;
  phase: PhaseModel | null;
  /** What the shape changes from the lowest volume step to the highest, third octaves, dB; null with one step. */
  withVolume: { fromStep: number; toStep: number; fHz: number[]; changeDb: number[] } | null;
}

export interface SourceSum {
  take: string;
  outputs: string[];
  /** Third octaves where two outputs and more are alike in level: the sum over what they would give in step. */
  fHz: number[];
  lossDb: number[];
}

export interface SourceFinding {
  what: 'equalizer' | 'high-pass' | 'low-pass' | 'delay' | 'phase' | 'polarity' | 'loudness' | 'sum' | 'unread';
  outputs: string[];
  /** Whether settings behind the source can take it back. */
  undo: 'yes' | 'no' | 'in-part';
  says: string;
  mend: string;
}

export interface FactorySource {
  outputs: OutputReading[];
  sums: SourceSum[];
  findings: SourceFinding[];
  verdict: 'clean' | 'to-undo' | 'not-to-undo' | 'cannot-say';
  says: string;
}
