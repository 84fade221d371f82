import type { PartOf } from '../../plan/plan.ts';
import type { PlanView } from './plan-view.ts';
import type { Rule } from './rule.ts';

/** Whether current that enters `run` can come back to its start. Batteries end the way: they feed themselves. */
function comesBack(run: PartOf<'run'>, { runsFrom, part }: PlanView): boolean {
  const seen = new Set<string>();
  const next = [run];
  for (let way = next.pop(); way !== undefined; way = next.pop()) {
    if (way.to === undefined || part('battery', way.to) !== undefined || seen.has(way.to)) continue;
    if (way.to === run.from) return true;
    seen.add(way.to);
    next.push(...runsFrom(way.to));
  }
  return false;
}

/** */
export const powerRunsCircular: Rule = {
  id: 'R-02',
  code: 'power-runs-circular',
  why: 'Where power goes round in a circle no fuse can be said to protect a cable.',
  check: (view) =>
    view.plan.run
      .filter((run) => run.from !== undefined && comesBack(run, view))
      .map((run) => ({
        severity: 'stop',
        place: `run ${run.id}`,
        message: `Run ${run.id} from ${run.from} to ${run.to} is part of a circle.`,
        values: { from: run.from ?? '', to: run.to ?? '' },
        clears: 'Let each run lead away from the battery.',
      })),
};
