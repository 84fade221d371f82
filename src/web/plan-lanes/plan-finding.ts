import type { PlanCheck } from '../../job/projections/plan-check.ts';

/** A finding of the plan, with who accepted it. */
export type PlanFinding = PlanCheck['findings'][number];

/** Findings that say the same of several places. */
export type FindingGroup = readonly [PlanFinding, ...PlanFinding[]];
