// A job on a screen: as it stands, and wishes that change it.
import { useCallback, useState } from 'react';
import type { Command } from '../../job/commands/commands.ts';
import type { JobView } from '../api-client.ts';
import { currentSettings } from '../settings.ts';
import { newId } from './ids.ts';
import { learned, type Resource, refresh, useResource } from './resource.ts';
import { noteAnswer, noteAway } from './saved-status.ts';
import { useShop } from './shop-context.ts';
import { type ShopError, shopErrorFrom } from './shop-error.ts';

export const jobResource = (job: string): string => `job:${job}`;

export function useJob(job: string): Resource<JobView> {
  const { api } = useShop();
  return useResource(jobResource(job), () => api.job(job));
}

/** Who writes, as the journal names them. */
export const whoWrites = (): string => currentSettings().who.trim() || 'someone at the bench';

export interface Wishing {
  /** True once the journal has it. */
  wish: (...commands: Command[]) => Promise<boolean>;
  busy: boolean;
  error: ShopError | null;
  forget: () => void;
}

/** Sends wishes to a job's journal; the screen shows the job as the answer has it. */
export function useWish(job: string): Wishing {
  const { api } = useShop();
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<ShopError | null>(null);
  const wish = useCallback(
    async (...commands: Command[]) => {
      setBusy(true);
      try {
        const view = await api.append(
          job,
          whoWrites(),
          commands.map((command) => ({ id: newId(), wish: command })),
        );
        learned(jobResource(job), view);
        refresh('jobs');
        noteAnswer();
        setError(null);
        return true;
      } catch (failed) {
        const told = shopErrorFrom(failed);
        if (told.unanswered) noteAway();
        setError(told);
        return false;
      } finally {
        setBusy(false);
      }
    },
    [api, job],
  );
  return { wish, busy, error, forget: () => setError(null) };
}
