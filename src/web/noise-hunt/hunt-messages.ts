// What the page and its hunter say to each other.
import type { Issue } from '../../base/result.ts';
import type { TakeRole } from '../../measurement/noise-hunt/hunt-step.ts';
import type { HuntOptions, NoiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';

export interface HuntRequest {
  /** Counts the requests: an answer to an older one is dropped. */
  request: number;
  takes: Partial<Record<TakeRole, { wav: Blob; rpm: number | undefined }>>;
  options: HuntOptions;
}

/** A take as a curve, levels as the hunt has them. */
export interface TakeCurve {
  take: TakeRole;
  fHz: number[];
  levelDb: number[];
}

export type HuntReport =
  | { say: 'done'; request: number; hunt: NoiseHunt; curves: TakeCurve[] }
  | { say: 'refused'; request: number; issues: Issue[] }
  | { say: 'failed'; request: number; message: string };
