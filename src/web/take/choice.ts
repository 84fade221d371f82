// What was chosen for the takes of a job, kept on this device between takes.
import { useState } from 'react';
import type { TakeWish } from './take-wish.ts';
import { allTogether, firstLevelDbfs, rangeFor, sideFor } from './take-wish.ts';

export interface TakeChoice extends TakeWish {
  plays: 'here' | 'elsewhere';
  inputId: string | null;
  outputId: string | null;
}

const keyOf = (job: string) => `kickpanel.take.${job}`;

function kept(job: string): Partial<TakeChoice> {
  try {
    return JSON.parse(localStorage.getItem(keyOf(job)) ?? '{}') as Partial<TakeChoice>;
  } catch {
    return {};
  }
}

/** What a place suggests: its side, its range, and quietly if nobody has heard it. */
export function suggested(
  place: string,
  heardBefore: boolean,
): Pick<TakeWish, 'place' | 'side' | 'range' | 'levelDbfs'> {
  return { place, side: sideFor(place), range: rangeFor(place), levelDbfs: firstLevelDbfs(heardBefore) };
}

export function useTakeChoice(
  job: string,
  asked: string | null,
  heardBefore: (place: string) => boolean,
  near = false,
): { choice: TakeChoice; change: (change: Partial<TakeChoice>) => void } {
  const [choice, setChoice] = useState<TakeChoice>(() => {
    const before = kept(job);
    const place = asked ?? before.place ?? allTogether;
    const base = { kind: 'sweep' as const, plays: 'here' as const, inputId: null, outputId: null, ...before };
    return {
      ...base,
      ...(before.place === place ? (before as TakeWish) : suggested(place, heardBefore(place))),
      place,
      // Everything plays and the microphone is close: what one place bears says nothing of the others.
      ...(near ? { kind: 'near' as const, levelDbfs: firstLevelDbfs(false) } : { kind: base.kind }),
    };
  });
  const change = (part: Partial<TakeChoice>) => {
    const next = { ...choice, ...part };
    setChoice(next);
    try {
      localStorage.setItem(keyOf(job), JSON.stringify(next));
    } catch {
      // Still chosen until the page goes.
    }
  };
  return { choice, change };
}
