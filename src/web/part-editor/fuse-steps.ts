import { fuseFamilies } from '../../electrical/fuse-families.ts';
import type { PartOf } from '../../plan/plan.ts';

/** Ratings that can be bought, of a family or of all. */
export function fuseSteps(family: PartOf<'fuse'>['family']): readonly number[] {
  if (family !== undefined) return fuseFamilies[family];
  return [...new Set(Object.values(fuseFamilies).flat())].sort((a, b) => a - b);
}
