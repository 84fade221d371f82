// The plan of a job as its screens use it: checked against the rules here, changed by wishes.
import { useMemo } from 'react';
import { type PlanCheck, planCheckOf } from '../../job/projections/plan-check.ts';
import type { PlanChange } from '../../plan/changes.ts';
import type { Plan } from '../../plan/plan.ts';
import type { JobView } from '../api-client.ts';
import { changeSettings } from '../settings.ts';
import type { BarProps } from '../shell/Bar.tsx';
import type { ShopError } from '../shop/shop-error.ts';
import { undoAct } from '../shop/undo-act.ts';
import { useWish } from '../shop/use-job.ts';
import type { FindingGroup } from './plan-finding.ts';

export interface PlanActions {
  /** Several changes as one entry. */
  change: (...changes: PlanChange[]) => Promise<boolean>;
  /** What the findings themselves say would clear them. */
  mend: (group: FindingGroup) => Promise<boolean>;
  accept: (group: FindingGroup, who: string, why: string) => Promise<boolean>;
  startFrom: (template: TemplateWish) => Promise<boolean>;
  busy: boolean;
  error: ShopError | null;
}

type TemplateWish = Extract<
  Parameters<ReturnType<typeof useWish>['wish']>[number],
  { command: 'startPlanFromTemplate' }
>;

export interface PlanOfJob {
  plan: Plan;
  check: PlanCheck;
  actions: PlanActions;
  undo: BarProps['undo'];
}

export function usePlan({ job }: JobView): PlanOfJob {
  const { wish, busy, error } = useWish(job.id);
  const check = useMemo(() => planCheckOf(job), [job]);
  const actions: PlanActions = {
    change: (...changes) => wish({ command: 'changePlan', changes }),
    mend: (group) =>
      wish({ command: 'changePlan', changes: group.flatMap(({ changes = [] }) => changes as PlanChange[]) }),
    accept: (group, who, why) => {
      // Whoever writes is named once on this device.
      changeSettings({ who });
      return wish(...group.map(({ id, place }) => ({ command: 'overrideFinding' as const, finding: id, place, why })));
    },
    startFrom: (template) => wish(template),
    busy,
    error,
  };
  return {
    plan: job.plan.parts,
    check,
    actions,
    undo: undoAct(job, wish),
  };
}
