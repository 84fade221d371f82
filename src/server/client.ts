// The typed client of the HTTP API, for pages and scripts: what JSON says through `hc`, files and events by hand.
import { hc } from 'hono/client';
import type { Api } from './api.ts';

export type { ErrorBody } from './api/errors.ts';
export type { Appended, Imported, JobSummary, JobView } from './api/jobs.ts';
export type { NearState } from './api/near-walks.ts';
export type { StoredPhoto } from './api/photos.ts';
export type { ReadingState } from './api/readings.ts';
export type { MadeTrack, StoredRecording } from './api/recordings.ts';
export type { Microphone } from './api/shop.ts';

/** Calls by route: `apiClient(location.origin).api.jobs.$get()`. */
export function apiClient(origin: string) {
  return hc<Api>(origin);
}
