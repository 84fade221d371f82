// The answer to "what is this take worth, and what did the car do": the form that `read` prints.
import type { Recording } from '../signals/recording.ts';
import type { Problem } from './problems.ts';

/** Numbers over a rising frequency grid; null where nothing can be said. */
export type Curve = (number | null)[];

export interface Response {
  fHz: number[];
  /** Recorded full scale per played full scale, dB (dB SPL when calibrated). */
  levelDb: Curve;
  /** With the driver's own arrival removed, -180 .. 180. */
  phaseDeg: Curve;
  /** Whether the level at this frequency may be relied on. */
  valid: boolean[];
  /** One standard deviation of the level from noise alone, dB. */
  levelSigmaDb: Curve;
}

export interface Polarity {
  /** 1 a positive sample first moves the recording up; -1 down; 0 cannot say. */
  sign: 1 | -1 | 0;
  /** 0 .. 1 */
  confidence: number;
  /** Why, in plain words. */
  reason: string;
}

/** What same and opposite noise say of left against right. */
export interface PairSign {
  /** 1: they pull together; -1: against each other; 0: cannot say. */
  sign: 1 | -1 | 0;
  /** 60 to 125 Hz; null where that is not heard. */
  sameOverOppositeDb: number | null;
  reason: string;
}

export interface PassBand {
  lowHz: number | null;
  lowSlopeDbPerOctave: number | null;
  highHz: number | null;
  highSlopeDbPerOctave: number | null;
}

export interface Distortion {
  fHz: number[];
  thdPct: Curve;
  h2Pct: Curve;
  h3Pct: Curve;
  h4Pct: Curve;
  h5Pct: Curve;
  /** What noise alone would read as, summed over the orders shown. */
  floorPct: Curve;
  /** False: thdPct is an upper bound only. */
  valid: boolean[];
}

export interface BandLevels {
  /** Exact base-ten third-octave mid-band frequencies. */
  fHz: number[];
  levelDb: Curve;
}

export interface ToneReading {
  fHz: number;
  startS: number;
  levelDbfs: number | null;
  thdPct: number | null;
  floorPct: number | null;
}

/** A field that is absent, and why. */
export interface Withheld {
  field: string;
  code: string;
  message: string;
}

/** What one stimulus said. */
export interface StimulusReading {
  kind: 'sweep' | 'noise';
  side: 'left' | 'right' | 'both';
  levelDbfs: number;
  startS: number;
  /** Of noise: how its two sides go together. */
  relation?: string;
  response?: Response;
  arrivalS?: number;
  arrivalSigmaS?: number;
  polarity?: Polarity;
  band?: PassBand;
  distortion?: Distortion;
  bands?: BandLevels;
}

export interface Quality {
  usable: boolean;
  /** One sentence for a person: what this recording is worth. */
  verdict: string;
  /** Where the track's first sample falls in the recording, s. */
  startS?: number;
  /** Recorder clock against player clock, positive when the recording runs long. */
  driftPpm?: number;
  driftSigmaPpm?: number;
  peakDbfs: number | null;
  /** Input read, counted from 1, and how many the file has. */
  input: number;
  inputs: number;
  rateHz: number;
  bits: number;
  durationS: number;
  snr?: { fHz: number[]; db: Curve };
  problems: Problem[];
}

/** `kickpanel.read/1`. */
export interface Reading {
  schema: 'kickpanel.read/1';
  reference: 'full-scale' | 'spl';
  quality: Quality;
  response?: Response;
  arrivalS?: number;
  arrivalSigmaS?: number;
  leftMinusRightS?: number;
  leftMinusRightSigmaS?: number;
  /** Where a track plays noise that is the same on both sides, and opposite. */
  pairSign?: PairSign;
  polarity?: Polarity;
  band?: PassBand;
  distortion?: Distortion;
  bands?: BandLevels;
  stimuli?: StimulusReading[];
  tones?: ToneReading[];
  withheld: Withheld[];
}

/** How a take is to be read; every field has a default. */
export interface ReadOptions {
  /** Arrival window against the reference, s. */
  expectArrivalS?: { from: number; to: number };
  /** Input to read, counted from 0; by default the one that hears the track best. */
  input?: number;
  /** Octave fraction of the power smoothing, 1/12 when absent; 0 for none. */
  smoothOctaves?: number;
  /** Pass band to read in, Hz, instead of the one found. */
  bandHz?: { low: number; high: number };
  /** Sound pressure level that full scale stands for, dB. */
  fullScaleSplDb?: number;
  /**
   * The source itself, recorded alongside by an electrical loop-back: same start and clock as the take. Times are then
   * counted from it and its own response is taken out.
   */
  reference?: { recording: Recording; input: number };
  /** Microphone's deviation: measured minus true, dB over rising frequency. */
  microphone?: { fHz: number[]; deviationDb: number[] };
}

/** What a long reading reports and obeys. */
export interface ReadControl {
  onProgress?: (share: number, doing: string) => void;
  /** Returns true when the person no longer wants the answer. */
  cancelled?: () => boolean;
}

/** The impulse response behind a reading, for `--impulse` and the screens. */
export interface ImpulseResponse {
  rateHz: number;
  /** Index of the direct sound. */
  arrivalIndex: number;
  samples: Float64Array;
}
