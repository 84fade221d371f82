// Figures that two machines computed: their last digits may differ, and that changes nothing.

import type { JobPlan } from '../../job/projections/job-plan.ts';
import type { PlanCheck } from '../../job/projections/plan-check.ts';

type Values = PlanCheck['findings'][number]['values'];

/** Far more than rounding leaves, far less than any meter shows. */
const slack = 1e-9;

/** Whether two findings carry the same figures, the rounding of different machines aside. */
export function sameFigures(a: Values, b: Values): boolean {
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => {
      const [one, other] = [a[key], b[key]];
      if (typeof one !== 'number' || typeof other !== 'number') return one === other;
      return Math.abs(one - other) <= slack * Math.max(Math.abs(one), Math.abs(other));
    })
  );
}

/**
 * The check with acceptances that count: the server wrote down the figures as it computed them, and a browser's logarithm
 * may end in another digit.
 */
export function steadyCheck(check: PlanCheck, overrides: JobPlan['overrides']): PlanCheck {
  const findings = check.findings.map((found): PlanCheck['findings'][number] => {
    const { accepted } = found;
    if (accepted?.stale === undefined) return found;
    const override = overrides.find(({ entry }) => entry === accepted.entry);
    if (override === undefined || !sameFigures(override.values, found.values)) return found;
    const { stale: _, ...counting } = accepted;
    return { ...found, accepted: counting };
  });
  const standing = findings.filter(({ severity, accepted }) => severity === 'stop' && accepted?.why === undefined);
  const doubtful = findings.filter(({ severity, accepted }) => severity === 'stop' && accepted?.stale !== undefined);
  return { ...check, findings, stops: standing.length + doubtful.length };
}
