// Near walks and cuttings on request: each is computed once, watched while it is, and kept as long as the reader stays the same.
import type { Issue, Result } from '../base/result.ts';
import { isStoreFailure } from '../store/failure.ts';
import type { NearState } from './api/near-walks.ts';
import type { CacheFolder } from './cache-folder.ts';
import type { RunningTask, TaskRunner } from './task-runner.ts';
import { cancelledIssue, type NearWalkTask, type PlaysTask, type TaskOutcome } from './worker-messages.ts';

/** What a finished task adds to its state. */
type Answered = Pick<NearState, 'walk' | 'plays'>;

export interface NearWork {
  /** Follows from all that the answer depends on. */
  id: string;
  task: NearWalkTask | PlaysTask;
  takes?: NonNullable<NearState['takes']>;
  answered: (outcome: TaskOutcome) => Promise<Result<Answered>>;
}

export interface NearDesk {
  /** The answer, or that it has begun. What failed or was cancelled begins anew. */
  start(work: NearWork): NearState;
  state(id: string): NearState | null;
  cancel(id: string): NearState | null;
}

interface Place {
  state: NearState;
  running: RunningTask | null;
}

/** Finished answers held in memory; older ones come from the cache or are computed again. */
const heldMax = 30;

function faultOf(error: unknown): Issue {
  if (isStoreFailure(error)) return error.issue;
  const message = error instanceof Error ? error.message : String(error);
  return { code: 'internal', message, mend: 'This is a fault of Kickpanel. The recordings are kept.' };
}

export function nearDesk(runner: TaskRunner, cache: CacheFolder): NearDesk {
  const desk = new Map<string, Place>();

  function fromCache(id: string): Place | null {
    const bytes = cache.read(`${id}.near.json`);
    if (bytes === null) return null;
    try {
      const state = JSON.parse(new TextDecoder().decode(bytes)) as NearState;
      if (state.id !== id || state.state !== 'done') return null;
      const place: Place = { state, running: null };
      desk.set(id, place);
      return place;
    } catch {
      return null;
    }
  }

  const placeOf = (id: string): Place | null => desk.get(id) ?? fromCache(id);

  function forgetOldest(): void {
    const finished = [...desk].filter(([, { running }]) => running === null);
    for (const [id] of finished.slice(0, Math.max(0, finished.length - heldMax))) desk.delete(id);
  }

  /** A task that was given up has nothing more to say. */
  function change(place: Place, running: RunningTask, news: Partial<NearState>): void {
    if (place.running !== running) return;
    const over = news.state !== undefined && news.state !== 'running';
    if (over) place.running = null;
    place.state = { ...place.state, ...news };
    if (news.state === 'done') cache.keep(`${place.state.id}.near.json`, JSON.stringify(place.state));
    if (over) forgetOldest();
  }

  return {
    start({ id, task, takes, answered }) {
      const before = placeOf(id);
      if (before !== null && (before.running !== null || before.state.state === 'done')) return before.state;
      const state: NearState = { id, state: 'waiting', share: 0, doing: 'waiting for its turn' };
      const place: Place = { state: takes === undefined ? state : { ...state, takes }, running: null };
      desk.delete(id);
      desk.set(id, place);
      const running = runner.run(task, (share, doing) => change(place, running, { state: 'running', share, doing }));
      place.running = running;
      const broken = (issue: Issue) =>
        issue.code === cancelledIssue.code
          ? change(place, running, { state: 'cancelled', doing: '' })
          : change(place, running, { state: 'failed', doing: '', error: issue });
      running.done
        .then((result) => (result.ok ? answered(result.value) : result))
        .then(
          (result) =>
            result.ok
              ? change(place, running, { ...result.value, state: 'done', share: 1, doing: '' })
              : broken(result.issues[0]),
          (error) => broken(faultOf(error)),
        );
      return place.state;
    },
    state: (id) => placeOf(id)?.state ?? null,
    cancel(id) {
      const place = placeOf(id);
      if (place === null || place.running === null) return place?.state ?? null;
      const { running } = place;
      running.cancel();
      change(place, running, { state: 'cancelled', doing: '' });
      return place.state;
    },
  };
}
