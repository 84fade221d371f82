import { branchCheck } from '../../electrical/branch-check.ts';
import type { PartOf } from '../../plan/plan.ts';
import { allowedA, cableWords } from './cables.ts';
import type { PlanView } from './plan-view.ts';
import type { Outcome, Rule } from './rule.ts';
import { said } from './words.ts';

/** Runs behind `run` down to the next fuse in each. */
function unfusedBehind(view: PlanView, run: PartOf<'run'>): PartOf<'run'>[] {
  const found = new Set<PartOf<'run'>>();
  const next = [run];
  for (let way = next.pop(); way !== undefined; way = next.pop()) {
    if (way.to === undefined || view.part('block', way.to) === undefined) continue;
    for (const branch of view.runsFrom(way.to)) {
      if (found.has(branch) || branch === run || view.fusesOf(branch.id).some(({ fitted }) => fitted !== false))
        continue;
      found.add(branch);
      next.push(branch);
    }
  }
  return [...found];
}

/** E-04. */
export const branchUnprotected: Rule = {
  id: 'E-04',
  code: 'branch-unprotected',
  why: 'Where the cable gets thinner, the fuse ahead no longer protects it.',
  check: (view) =>
    view.plan.fuse
      .filter(({ fitted }) => fitted !== false)
      .flatMap(({ run, ratedA, id }): Outcome[] => {
        const from = view.part('run', run);
        if (from === undefined) return [];
        return unfusedBehind(view, from).map((branch) => {
          const place = `run ${branch.id}`;
          const cableA = allowedA(branch);
          if (cableA === undefined) return { place, needs: 'its size and material' };
          if (ratedA === undefined) return { place, needs: `the rating of ${id} ahead of it` };
          const [checked] = branchCheck(ratedA, [{ name: branch.id, allowedA: cableA, expectedA: 0 }]).branches;
          if (checked.ok) return null;
          return {
            severity: 'stop',
            place,
            message: `${cableWords(branch)} may carry ${said(cableA)} A but is protected by ${said(ratedA)} A only. Add a fuse at the block.`,
            values: { allowedA: cableA, upstreamA: ratedA },
            clears: `Put a fuse of ${said(Math.floor(cableA))} A or less into ${branch.id} at the block.`,
          };
        });
      }),
};
