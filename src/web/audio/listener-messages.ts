// What the page and its listening worker say to each other.
import type { KeptTake } from '../keep/kept-take.ts';
import type { LevelNow } from './level-meter.ts';

export interface SpectrumWish {
  fraction: number;
  fromHz: number;
  toHz: number;
}

export type ListenerRequest =
  | { ask: 'listen'; port: MessagePort; rateHz: number; spectrum: SpectrumWish | null }
  /** Keeps the sound from now on as `take`; its rate and channels are those of the sound. */
  | { ask: 'keep'; take: KeptTake }
  /** Starts the average and the spread anew. */
  | { ask: 'average' };

export type Trouble =
  /** Sound was lost between two blocks. */
  | 'gap'
  /** The computer slept or the page was held up. */
  | 'slept'
  /** No room in this browser. */
  | 'disk-full'
  | 'not-kept';

export interface BandsNow {
  /** Exact middle of each band. */
  fHz: Float32Array;
  /** The name each band goes by. */
  nominalHz: Float32Array;
  /** Levels of about 0.125 s, dB re a full-scale square. */
  momentDb: Float32Array;
  /** Power mean since the average began. */
  averageDb: Float32Array;
  /** One standard deviation of the moments, dB. */
  spreadDb: Float32Array;
  /** Since the average began. */
  seconds: number;
}

export type ListenerReport =
  | { say: 'level'; seconds: number; channels: number; level: LevelNow }
  | { say: 'bands'; bands: BandsNow }
  | { say: 'kept'; take: KeptTake }
  | { say: 'trouble'; trouble: Trouble; atS: number; message: string }
  /** The sound has ended and all of it that could be kept is. */
  | { say: 'ended'; take: KeptTake | null };
