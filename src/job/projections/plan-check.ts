// The plan of a job held against the rules: findings with what was said about them, and what still holds of that.
import { z } from 'zod';
import { type JobHoldPoints, jobHoldPoints } from '../hold-points/behind-cover.ts';
import { coverClosesOverUnproven } from '../rules/cover-closes-over-unproven.ts';
import { cannotTellSchema, type Finding, findingSchema, findingsOf } from '../rules/findings.ts';
import { sameFigure, sameFigures } from '../rules/same-figures.ts';
import type { RuleSettings } from '../rules/settings.ts';
import { circumstancesOf } from './circumstances.ts';
import type { JobState } from './job-state.ts';

const acceptedSchema = z.object({
  entry: z.string(),
  who: z.string(),
  when: z.string(),
  why: z.string(),
  /** Why the acceptance no longer counts; absent while it does. */
  stale: z.string().exactOptional(),
});

export const checkedFindingSchema = findingSchema.extend({ accepted: acceptedSchema.exactOptional() });
export const planCheckSchema = z.object({
  findings: z.array(checkedFindingSchema),
  cannotTell: z.array(cannotTellSchema),
  /** Stop findings that stand: the stage cannot be closed. */
  stops: z.number().int(),
});

export type PlanCheck = z.infer<typeof planCheckSchema>;

function changeWords(before: Finding['values'], now: Finding['values']): string {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(now)])].sort();
  const different = keys.filter((key) => !sameFigure(before[key], now[key]));
  return `It was accepted when ${different.map((key) => `${key} was ${before[key] ?? 'not known'}, now ${now[key] ?? 'not known'}`).join('; ')}.`;
}

/**
 * Who fastened a cover over what was unproven has accepted that it hides it: as long as nothing else behind it is open.
 */
function passedOver({ covers }: JobHoldPoints, found: Finding): z.infer<typeof acceptedSchema> | undefined {
  if (found.id !== coverClosesOverUnproven.id) return undefined;
  const report = covers.find(({ cover }) => `cover ${cover}` === found.place);
  if (report === undefined || report.passedOver === null || report.state !== 'fastened') return undefined;
  const { name: who, why, when, entry, holdPoints } = report.passedOver;
  const more = report.open.filter((id) => !holdPoints.includes(id));
  const accepted = { entry, who, when, why };
  if (more.length === 0) return accepted;
  return { ...accepted, stale: `When it was fastened ${more.join(', ')} was not among what was unproven.` };
}

/** An acceptance counts for the numbers that it was given for, no others. */
export function planCheckOf(state: JobState, settings?: RuleSettings): PlanCheck {
  const { plan } = state;
  const { findings, cannotTell } = findingsOf(plan.parts, settings, circumstancesOf(state));
  const reports = state.covers.some(({ passedOver }) => passedOver !== undefined) ? jobHoldPoints(state) : null;
  const checked = findings.map((found): PlanCheck['findings'][number] => {
    const override = plan.overrides.find(({ finding, place }) => finding === found.id && place === found.place);
    if (override === undefined) {
      const over = reports === null ? undefined : passedOver(reports, found);
      return over === undefined ? found : { ...found, accepted: over };
    }
    const { entry, who, when, why, values } = override;
    const accepted = { entry, who, when, why };
    if (sameFigures(values, found.values)) return { ...found, accepted };
    return { ...found, accepted: { ...accepted, stale: changeWords(values, found.values) } };
  });
  const standing = ({ severity, accepted }: PlanCheck['findings'][number]) =>
    severity === 'stop' && (accepted === undefined || accepted.stale !== undefined);
  return { findings: checked, cannotTell, stops: checked.filter(standing).length };
}
