// What a job knows beside its plan: how the covers are, what evidence was given, and what became doubtful.
import type { coverStates } from '../../plan/vehicle-parts.ts';
import type { GivenEvidence, StaleProof } from '../hold-points/given-evidence.ts';

interface Stamp {
  entry: string;
  when: string;
  who: string;
}

/** How a cover is; it is called by its letter on the drawing or by its id in the plan. */
interface StatedCover {
  cover: string;
  state: (typeof coverStates)[number];
  /** Who fastened it over what was not proven. */
  passedOver?: Stamp & { name: string; why: string; holdPoints: string[] };
}

export interface JobRecord {
  covers: readonly StatedCover[];
  evidence: readonly GivenEvidence[];
  /** Who last changed each part. */
  changes: readonly (Stamp & { part: string; id: string })[];
  /** Readings that no longer count, and why. */
  stale: readonly (Stamp & { reading: string; part: string; why: string })[];
  staleProofs: readonly StaleProof[];
  /** Photos that it holds, by hash. */
  photos: readonly { photo: string; name: string }[];
}

/** Of a plan without a job. */
export const emptyRecord: JobRecord = {
  covers: [],
  evidence: [],
  changes: [],
  stale: [],
  staleProofs: [],
  photos: [],
};
