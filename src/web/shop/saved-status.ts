// What is saved where: on this device, and with the shop's server.
import { useSyncExternalStore } from 'react';

export interface SavedStatus {
  /** When something was last kept on this device; null: nothing yet. */
  hereWhen: number | null;
  /** When the server last took something or answered. */
  shopWhen: number | null;
  /** Takes that this device keeps until the server has them. */
  waiting: number;
  /** Since when the server has not answered. */
  awaySince: number | null;
  /** Keeping on this device has failed: nothing more may be recorded. */
  fault: string | null;
}

let status: SavedStatus = { hereWhen: null, shopWhen: null, waiting: 0, awaySince: null, fault: null };
const listeners = new Set<() => void>();

export function noteSaved(change: Partial<SavedStatus>): void {
  status = { ...status, ...change };
  for (const listener of listeners) listener();
}

/** The server answered just now. */
export function noteAnswer(): void {
  noteSaved({ shopWhen: Date.now(), awaySince: null });
}

export function noteAway(): void {
  if (status.awaySince === null) noteSaved({ awaySince: Date.now() });
}

export function useSavedStatus(): SavedStatus {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => status,
  );
}
