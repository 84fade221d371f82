// What somebody found goes to the shop: a photo as a file first, then everything that speaks of it as one.
import { useState } from 'react';
import type { CheckStage, Wished } from '../../job/check-in/check-forms.ts';
import type { Command } from '../../job/commands/commands.ts';
import type { JobView } from '../api-client.ts';
import { useShop } from '../shop/shop-context.ts';
import { type ShopError, shopErrorFrom } from '../shop/shop-error.ts';
import { useWish, type Wishing } from '../shop/use-job.ts';

export interface Checking {
  busy: boolean;
  error: ShopError | null;
  wish: Wishing['wish'];
  /** @returns whether the journal has it */
  found: (check: string, wished: Wished) => Promise<boolean>;
  /** Keeps the file, attaches it under this name, and answers the check with it. */
  photographed: (check: string, name: string, file: File, words?: string) => Promise<boolean>;
}

export function useCheck({ job }: JobView, at: CheckStage): Checking {
  const { api } = useShop();
  const { wish, busy, error } = useWish(job.id);
  const [sending, setSending] = useState(false);
  const [failed, setFailed] = useState<ShopError | null>(null);
  const answer = (check: string, found: Wished): Command => ({ command: 'recordCheck', at, check, found });
  return {
    busy: busy || sending,
    error: failed ?? error,
    wish,
    found(check, wished) {
      setFailed(null);
      return wish(answer(check, wished));
    },
    async photographed(check, name, file, words) {
      setSending(true);
      setFailed(null);
      try {
        const { sha256: photo, bytes, type } = await api.keepPhoto(file);
        const found: Wished = { how: 'photo', photo, ...(words === undefined ? {} : { words }) };
        // The same picture may serve two checks; it keeps its first name.
        const known = job.photos.some((one) => one.photo === photo);
        const attach: Command[] = known ? [] : [{ command: 'attachPhoto', photo, bytes, type, name }];
        return await wish(...attach, answer(check, found));
      } catch (problem) {
        setFailed(shopErrorFrom(problem));
        return false;
      } finally {
        setSending(false);
      }
    },
  };
}
