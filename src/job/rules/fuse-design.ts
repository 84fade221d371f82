// What a fuse must at least be rated for: what the maker of the amplifier behind it states, else music with room to spare.
import { loadFactorDefault } from '../../electrical/choose-fuse.ts';
import type { PartOf } from '../../plan/plan.ts';
import { runCarries } from './currents.ts';
import type { PlanView } from './plan-view.ts';

export interface FuseDesign {
  /** Least rating of a fuse in the run, A. */
  designA: number;
  /** What music draws, A; undefined where that is not known and the maker's figure stands alone. */
  expectedA: number | undefined;
  /** Sum of the amplifier's own fuses where the run ends at one that states them, A. */
  makerA: number | undefined;
}

/** Sum of what an amplifier's maker put into it; undefined where that is not known. */
function makerFuseA(amplifier: PartOf<'amplifier'> | undefined): number | undefined {
  const sum = (amplifier?.ownFusesA ?? []).reduce((all, one) => all + one, 0);
  return sum > 0 ? sum : undefined;
}

/**
 * The design current of a run's fuse. An amplifier's own fuses count for the run that ends at it: what its maker states
 * needs no more room. A run that feeds several carries what all of them draw in music, with a fifth to spare.
 */
export function fuseDesign(view: PlanView, run: PartOf<'run'>): FuseDesign | undefined {
  const makerA = makerFuseA(view.part('amplifier', run.to));
  const expectedA = runCarries(view, run)?.musicA;
  if (makerA !== undefined) return { designA: makerA, expectedA, makerA };
  return expectedA === undefined ? undefined : { designA: expectedA / loadFactorDefault, expectedA, makerA };
}
