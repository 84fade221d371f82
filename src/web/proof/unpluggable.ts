// Drivers that may be unplugged while the coils of a load are read.
import type { HoldPoint } from '../../job/hold-points/hold-points.ts';
import { planView } from '../../job/rules/plan-view.ts';
import { called } from '../../job/rules/words.ts';
import type { JobView } from '../api-client.ts';

/** Those of the load that a point is of; none for any other kind of point. */
export function unpluggable(
  { job }: JobView,
  { kind, of }: Pick<HoldPoint, 'kind' | 'of'>,
): { id: string; words: string }[] {
  if (kind !== 'coils-read') return [];
  const lane = planView(job.plan.parts).lanes.find(({ load }) => load.id === of.id);
  return (lane?.drivers ?? []).map((driver) => ({ id: driver.id, words: called(driver) }));
}
