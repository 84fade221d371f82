// The typed client of the HTTP API, for pages and scripts: what JSON says through `hc`, files and events by hand.
import { hc } from 'hono/client';
import type { StoredRecording } from './api/recordings.ts';
import type { Api } from './api.ts';

export type { ErrorBody } from './api/errors.ts';
export type { Appended, Imported, JobSummary, JobView, Verification } from './api/jobs.ts';
export type { ReadingState } from './api/readings.ts';
export type { MadeTrack, StoredRecording } from './api/recordings.ts';
export type { Microphone } from './api/shop.ts';

/** Calls by route: `apiClient(location.origin).api.jobs.$get()`. */
export function apiClient(origin: string) {
  return hc<Api>(origin);
}

/** Sends a WAV file as it is; the answer's status tells whether it was kept. */
export async function sendRecording(origin: string, wav: Blob | Uint8Array<ArrayBuffer>): Promise<StoredRecording> {
  const answer = await fetch(`${origin}/api/recordings`, {
    method: 'PUT',
    headers: { 'content-type': 'audio/wav' },
    body: wav,
  });
  const body = await answer.json();
  if (!answer.ok) throw Object.assign(new Error(body.error.message), body.error);
  return body as StoredRecording;
}
