// What the page and its reader say to each other.
import type { Issue } from '../../base/result.ts';
import type { ImpulseResponse, Reading, ReadOptions } from '../../measurement/reading.ts';
import type { TrackDescription } from '../../signals/track.ts';

export interface ReadRequest {
  wav: Blob;
  track: TrackDescription;
  options: ReadOptions;
}

export type ReaderReport =
  | { say: 'progress'; share: number; doing: string }
  | { say: 'done'; reading: Reading; impulse: ImpulseResponse | null }
  | { say: 'refused'; issue: Issue }
  | { say: 'failed'; message: string };
