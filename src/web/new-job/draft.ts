// What has been typed into a new card, kept until the card is on the bench: a reload loses nothing.
import { useState } from 'react';
import type { BodyKind, SteeringHand } from '../../charts/vehicle/bodies.ts';

export interface NewJobDraft {
  body: BodyKind | 'other' | null;
  hand: SteeringHand;
  number: string;
  vehicle: string;
  owner: string;
  plate: string;
  phone: string;
  asked: string;
  who: string;
}

const place = 'kickpanel.new-job';
const blank: NewJobDraft = {
  body: null,
  hand: 'right',
  number: '',
  vehicle: '',
  owner: '',
  plate: '',
  phone: '',
  asked: '',
  who: '',
};

function kept(): Partial<NewJobDraft> {
  try {
    return JSON.parse(localStorage.getItem(place) ?? '{}') as Partial<NewJobDraft>;
  } catch {
    return {};
  }
}

export function useNewJobDraft(who: string): {
  draft: NewJobDraft;
  change: (change: Partial<NewJobDraft>) => void;
  forget: () => void;
} {
  const [draft, setDraft] = useState<NewJobDraft>(() => ({ ...blank, who, ...kept() }));
  const change = (part: Partial<NewJobDraft>) => {
    const next = { ...draft, ...part };
    setDraft(next);
    try {
      localStorage.setItem(place, JSON.stringify(next));
    } catch {
      // Still on the screen; only a reload would lose it.
    }
  };
  return { draft, change, forget: () => localStorage.removeItem(place) };
}
