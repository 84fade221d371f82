// The hold points of a job for screens of the first load: fetched once they are there, null before.
import { useEffect, useMemo, useState } from 'react';
import type { JobView } from '../api-client.ts';
import type { Proof } from './proof-model.ts';

type Model = typeof import('./proof-model.ts');
let fetched: Model | null = null;

export interface KnownProof extends Proof {
  stages: ReturnType<Model['stageCounts']>;
}

export function useProof(view: JobView): KnownProof | null {
  const [model, setModel] = useState(fetched);
  useEffect(() => {
    if (fetched !== null) return;
    let shown = true;
    // Without it the card stands as it did, only without its tags.
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
  return useMemo(() => {
    if (model === null) return null;
    const proof = model.proofOf(view);
    return { ...proof, stages: model.stageCounts(proof.points) };
  }, [model, view]);
}
