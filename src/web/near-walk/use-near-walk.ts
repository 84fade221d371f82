// The near walk of a job as the shop reads it: begun when its plan or its takes change, watched, and stopped on a press.
import { useEffect, useRef, useState } from 'react';
import type { JobNearWalk } from '../../job/near-walk/job-near-walk.ts';
import type { NearPlanOfJob } from '../../job/near-walk/near-plan-of-job.ts';
import type { JobTake } from '../../job/near-walk/near-takes.ts';
import type { NearState, ShopApi } from '../api-client.ts';
import { useShop } from '../shop/shop-context.ts';
import { ShopError, shopErrorFrom } from '../shop/shop-error.ts';

const askEveryMs = 350;

/** Asks again until it is over, or until the screen is left. */
export async function nearOver(
  api: ShopApi,
  begun: NearState,
  tell: (state: NearState) => void,
  given: { up: boolean },
): Promise<NearState> {
  let state = begun;
  while (!given.up && (state.state === 'waiting' || state.state === 'running')) {
    tell(state);
    await new Promise((resolve) => setTimeout(resolve, askEveryMs));
    if (!given.up) state = await api.nearState(state.id);
  }
  if (state.error !== undefined) throw new ShopError({ ...state.error, status: -1 });
  return state;
}

export interface NearReading {
  /** The last answer: of these takes, or of those before while new ones are read. */
  walk: JobNearWalk | null;
  progress: { share: number; doing: string } | null;
  stopped: boolean;
  error: ShopError | null;
  stop: () => void;
  again: () => void;
}

export function useNearWalk(
  job: string,
  { plan, issues }: NearPlanOfJob,
  takes: ReadonlyMap<string, JobTake>,
): NearReading {
  const { api } = useShop();
  const [walk, setWalk] = useState<JobNearWalk | null>(null);
  const [state, setState] = useState<NearState | null>(null);
  const [error, setError] = useState<ShopError | null>(null);
  const [round, setRound] = useState(0);
  const running = useRef<string | null>(null);
  const named = [...takes].map(([place, { take }]) => `${place} ${take}`);
  const key = takes.size === 0 || issues.length > 0 ? null : JSON.stringify([plan, named, round]);
  useEffect(() => {
    setError(null);
    setState(null);
    if (key === null) return setWalk(null);
    const given = { up: false };
    const tell = (now: NearState) => {
      if (given.up) return;
      running.current = now.id;
      setState(now);
    };
    api
      .startNearWalk(job)
      .then((begun) => nearOver(api, begun, tell, given))
      .then(
        (over) => {
          if (given.up) return;
          running.current = null;
          setState(over);
          if (over.walk !== undefined) setWalk(over.walk);
        },
        (failed) => {
          if (!given.up) setError(shopErrorFrom(failed));
        },
      );
    return () => {
      given.up = true;
    };
  }, [api, job, key]);
  const reads = key !== null && error === null && state?.state !== 'done' && state?.state !== 'cancelled';
  return {
    walk: key === null ? null : walk,
    progress: reads ? { share: state?.share ?? 0, doing: state?.doing ?? '' } : null,
    stopped: state?.state === 'cancelled',
    error,
    stop: () => {
      if (running.current !== null) void api.cancelNear(running.current).catch(() => undefined);
    },
    again: () => setRound((before) => before + 1),
  };
}
