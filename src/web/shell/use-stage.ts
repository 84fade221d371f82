// The stage that a job stands at on a screen, once its hold points are counted.
import type { JobView } from '../api-client.ts';
import { useProof } from '../proof/use-proof.ts';
import { stageOfView } from './stages.ts';

export function useStage(view: JobView | undefined): number | undefined {
  const points = useProof(view)?.stages ?? [];
  return view === undefined ? undefined : stageOfView(view, points);
}
