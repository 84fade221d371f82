// The hold points of a job for screens of the first load: fetched once they are there, null before.
import { useEffect, useState } from 'react';
import type { JobView } from '../api-client.ts';
import type { Proof } from './proof-model.ts';

type Model = typeof import('./proof-model.ts');
let fetched: Model | null = null;

export interface KnownProof extends Proof {
  stages: ReturnType<Model['stageCounts']>;
}

/** Counted once for a job as it stands, however many parts of a screen ask. */
const counted = new WeakMap<JobView, KnownProof>();

function proofIn(model: Model, view: JobView): KnownProof {
  const before = counted.get(view);
  if (before !== undefined) return before;
  const proof = model.proofOf(view);
  const known = { ...proof, stages: model.stageCounts(proof.points) };
  counted.set(view, known);
  return known;
}

/** What tells the hold points of any job; null until it is there. */
export function useProofOf(): ((view: JobView) => KnownProof) | null {
  const [model, setModel] = useState(fetched);
  useEffect(() => {
    if (fetched !== null) return;
    let shown = true;
    // Without it screens stand as they did, only without their tags.
    void import('../plain-zod.ts')
      .then(() => import('./proof-model.ts'))
      .then((known) => {
        fetched = known;
        if (shown) setModel(known);
      })
      .catch(() => undefined);
    return () => {
      shown = false;
    };
  }, []);
  return model === null ? null : (view) => proofIn(model, view);
}

/** The hold points of one job; null until they are known. */
export function useProof(view: JobView | undefined): KnownProof | null {
  const proofOf = useProofOf();
  return proofOf === null || view === undefined ? null : proofOf(view);
}
