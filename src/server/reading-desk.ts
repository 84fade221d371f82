// Readings on request: each is computed once, watched while it is, and kept as long as the reader stays the same.
import { failure, type Issue, type Result, success } from '../base/result.ts';
import { canonicalJson } from '../job/canonical-json.ts';
import type { ReadOptions } from '../measurement/reading.ts';
import { writeWav } from '../signals/wav/write-wav.ts';
import { isStoreFailure } from '../store/failure.ts';
import { keptTrack } from '../store/keep-files.ts';
import { sha256, type Workshop } from '../store/workshop.ts';
import type { ReadingState } from './api/readings.ts';
import type { CacheFolder } from './cache-folder.ts';
import type { RunningTask, TaskRunner } from './task-runner.ts';
import { cancelledIssue, type ReadOutcome } from './worker-messages.ts';

export interface ReadingRequest {
  recording: string;
  track: string;
  options: ReadOptions;
}

export interface ReadingDesk {
  /** The reading, or that it has begun. What failed or was cancelled begins anew. */
  start(request: ReadingRequest): Promise<Result<ReadingState>>;
  /** Null for a reading that nobody asked for. */
  state(id: string): ReadingState | null;
  /** The impulse response as a WAV file, and which sample is the direct sound. */
  impulse(id: string): { wav: Uint8Array; arrivalIndex: number } | null;
  cancel(id: string): ReadingState | null;
  /** Calls back at every change, without the reading itself. @returns what ends it */
  watch(id: string, listener: (state: ReadingState) => void): () => void;
}

interface Kept {
  state: ReadingState;
  arrivalIndex: number | null;
}

interface Desk extends Kept {
  running: RunningTask | null;
  impulse: Uint8Array | null;
}

/** Finished readings held in memory; older ones come from the cache or are computed again. */
const heldMax = 30;

/** @param version of the reader: another one would answer otherwise, so its readings have other ids */
export function readingDesk(workshop: Workshop, runner: TaskRunner, cache: CacheFolder, version: string): ReadingDesk {
  const desk = new Map<string, Desk>();
  const watchers = new Map<string, Set<(state: ReadingState) => void>>();

  /** A place that was given up has nothing more to say. */
  function change(place: Desk, change: Partial<ReadingState>): void {
    const { id } = place.state;
    place.state = { ...place.state, ...change };
    if (desk.get(id) !== place) return;
    const { reading: _, ...news } = place.state;
    for (const watcher of watchers.get(id) ?? []) watcher(news);
  }

  function forgetOldest(): void {
    const finished = [...desk].filter(([, { running }]) => running === null);
    for (const [id] of finished.slice(0, Math.max(0, finished.length - heldMax))) desk.delete(id);
  }

  function fromCache(id: string): Desk | null {
    const bytes = cache.read(`${id}.json`);
    if (bytes === null) return null;
    try {
      const { state, arrivalIndex } = JSON.parse(new TextDecoder().decode(bytes)) as Kept;
      if (state.id !== id || state.state !== 'done' || state.reading === undefined) return null;
      const place: Desk = { state, arrivalIndex, running: null, impulse: null };
      desk.set(id, place);
      forgetOldest();
      return place;
    } catch {
      return null;
    }
  }

  const placeOf = (id: string): Desk | null => desk.get(id) ?? fromCache(id);

  function finished(place: Desk, { reading, impulse }: ReadOutcome): void {
    const { id } = place.state;
    place.running = null;
    place.arrivalIndex = impulse?.arrivalIndex ?? null;
    place.impulse =
      impulse === null ? null : writeWav({ channels: [impulse.samples], rateHz: impulse.rateHz, format: '32f' });
    const done = { state: 'done', share: 1, doing: '', reading, impulse: impulse !== null } as const;
    if (place.impulse !== null) cache.keep(`${id}.wav`, place.impulse);
    const kept: Kept = { state: { ...place.state, ...done }, arrivalIndex: place.arrivalIndex };
    cache.keep(`${id}.json`, JSON.stringify(kept));
    change(place, done);
    forgetOldest();
  }

  function broken(place: Desk, [issue]: Issue[]): void {
    place.running = null;
    if (issue.code === cancelledIssue.code) change(place, { state: 'cancelled', doing: '' });
    else change(place, { state: 'failed', doing: '', error: issue });
  }

  async function begin(id: string, request: ReadingRequest): Promise<Result<ReadingState>> {
    const { recording, track, options } = request;
    const { content } = workshop;
    const recordingPath = content.path('recordings', recording);
    const description = await keptTrack(content, track);
    const issues: Issue[] = [];
    if (recordingPath === null || (await content.size('recordings', recording)) === null) {
      const mend = 'Send the recording first.';
      issues.push({ code: 'recording-unknown', message: 'There is no such recording.', where: recording, mend });
    }
    if (description === null) {
      const mend = 'Make the track, or send its description first.';
      issues.push({ code: 'track-unknown', message: 'There is no such track.', where: track, mend });
    }
    if (issues.length > 0) return failure(...issues);
    // Somebody else may have begun it while the files were looked for.
    const there = desk.get(id);
    if (there?.running) return success(there.state);
    const state: ReadingState = { id, state: 'waiting', recording, track, share: 0, doing: 'waiting for its turn' };
    desk.delete(id);
    const place: Desk = { state, arrivalIndex: null, running: null, impulse: null };
    desk.set(id, place);
    const task = {
      kind: 'read',
      recordingPath: recordingPath as string,
      track: description as NonNullable<typeof description>,
      options,
    } as const;
    place.running = runner.run(task, (share, doing) => {
      if (place.running !== null) change(place, { state: 'running', share, doing });
    });
    place.running.done.then(
      (result) => (result.ok ? finished(place, result.value as ReadOutcome) : broken(place, result.issues)),
      (error) => broken(place, [isStoreFailure(error) ? error.issue : faultIssue(error)]),
    );
    return success(state);
  }

  return {
    async start(request) {
      const id = sha256(canonicalJson({ ...request, version }));
      const place = placeOf(id);
      if (place !== null && (place.running !== null || place.state.state === 'done')) return success(place.state);
      return begin(id, request);
    },
    state: (id) => placeOf(id)?.state ?? null,
    impulse(id) {
      const place = placeOf(id);
      if (place === null || place.arrivalIndex === null) return null;
      const wav = place.impulse ?? cache.read(`${id}.wav`);
      return wav === null ? null : { wav, arrivalIndex: place.arrivalIndex };
    },
    cancel(id) {
      const place = placeOf(id);
      if (place === null || place.running === null) return place?.state ?? null;
      place.running.cancel();
      place.running = null;
      change(place, { state: 'cancelled', doing: '' });
      return place.state;
    },
    watch(id, listener) {
      const listeners = watchers.get(id) ?? new Set();
      watchers.set(id, listeners.add(listener));
      return () => {
        listeners.delete(listener);
        if (listeners.size === 0) watchers.delete(id);
      };
    },
  };
}

function faultIssue(error: unknown): Issue {
  const message = error instanceof Error ? error.message : String(error);
  const mend =
    'This is a fault of Kickpanel, not of the recording. The recording is kept; a later version may read it.';
  return { code: 'internal', message, mend };
}
