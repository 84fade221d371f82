// A job on a screen: as it stands, and wishes that change it.
import { useCallback, useState } from 'react';
import type { Command } from '../../job/commands/commands.ts';
import type { IdentifiedWish, JobView } from '../api-client.ts';
import { hasWaiting, letWait } from '../keep/waiting.ts';
import { currentSettings } from '../settings.ts';
import { newId } from './ids.ts';
import { known, learned, type Resource, refresh } from './known-answers.ts';
import { rememberHead } from './known-heads.ts';
import { useResource } from './resource.ts';
import { noteAnswer, noteAway, noteSaved } from './saved-status.ts';
import { useShop } from './shop-context.ts';
import { ShopError, shopErrorFrom } from './shop-error.ts';

export const jobResource = (job: string): string => `job:${job}`;

export function useJob(job: string): Resource<JobView> {
  const { api } = useShop();
  return useResource(jobResource(job), () => api.job(job).then(rememberHead));
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

let lastOrder = 0;

/** Keeps wishes in this browser and shows the job as it will be; false where they cannot wait. */
async function keptHere(job: string, commands: readonly IdentifiedWish[]): Promise<boolean> {
  const view = known(jobResource(job)) as JobView | undefined;
  if (view === undefined) return false;
  const { canWait, wishHere } = await import('../keep/wish-here.ts');
  if (!commands.every(({ wish }) => canWait(wish))) return false;
  const when = new Date().toISOString();
  const made = commands.map(({ id, wish }) => {
    lastOrder = Math.max(lastOrder + 1, Date.now());
    return { id, job, who: whoWrites(), when, order: lastOrder, wish, state: 'waiting' as const, noteId: newId() };
  });
  const here = wishHere(view, made);
  if (!here.ok) throw new ShopError({ ...here.issues[0], status: 409 });
  await letWait(here.value.kept);
  learned(jobResource(job), here.value.view);
  noteSaved({ hereWhen: Date.now() });
  return true;
}

/** Sends wishes to a job's journal; the screen shows the job as the answer has it. Without an answer they wait here. */
export function useWish(job: string): Wishing {
  const { api } = useShop();
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<ShopError | null>(null);
  const wish = useCallback(
    async (...commands: Command[]) => {
      setBusy(true);
      const wishes = commands.map((command) => ({ id: newId(), wish: command }));
      try {
        if (hasWaiting(job) && (await keptHere(job, wishes))) return true;
        const view = await api.append(job, whoWrites(), wishes).catch(async (failed: unknown) => {
          if (!shopErrorFrom(failed).unanswered) throw failed;
          noteAway();
          if (await keptHere(job, wishes)) return null;
          throw failed;
        });
        setError(null);
        if (view === null) return true;
        learned(jobResource(job), view);
        refresh('jobs');
        noteAnswer();
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
