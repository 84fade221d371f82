// What the plan screen says: its sentence, and a change of the plan as the words of a button.
import { frequencyText, type NumberStyle } from '../../charts/number-words.ts';
import type { PlanCheck } from '../../job/projections/plan-check.ts';
import { type PlanChange, sameValue } from '../../plan/changes.ts';
import { type Part, type PartOf, type Plan, partsOf } from '../../plan/plan.ts';
import { wiringWords } from '../coils/wirings.ts';
import { kindWords } from '../part-editor/field-forms.ts';
import { numberText } from '../part-editor/quantity.ts';
import { countWords } from '../shop/job-words.ts';
import type { LaneRow } from './lanes.ts';
import type { FindingGroup, PlanFinding } from './plan-finding.ts';

/** Whether a finding still asks for something: an acceptance counts only for the numbers that it was given for. */
export const stands = ({ accepted }: PlanFinding): boolean => accepted === undefined || accepted.stale !== undefined;

export function countsOf({ findings }: PlanCheck) {
  const standing = findings.filter(stands);
  const having = (severity: PlanFinding['severity']) => standing.filter((found) => found.severity === severity).length;
  return {
    stop: having('stop'),
    fix: having('fix'),
    note: having('note'),
    accepted: findings.length - standing.length,
  };
}

/** `1 to stop for, 2 to fix, 3 to note.` */
export function countsSentence(check: PlanCheck): string {
  const { stop, fix, note, accepted } = countsOf(check);
  const parts = [
    ...(stop > 0 ? [`${stop} to stop for`] : []),
    ...(fix > 0 ? [`${fix} to fix`] : []),
    ...(note > 0 ? [`${note} to note`] : []),
    ...(accepted > 0 ? [`${accepted} accepted`] : []),
    ...(check.cannotTell.length > 0 ? [`${check.cannotTell.length} not told yet`] : []),
  ];
  return parts.length === 0 ? 'Nothing is wrong by what is known.' : `${parts.join(', ')}.`;
}

export const isEmpty = (plan: Plan): boolean => partsOf(plan).next().done === true;

/** The sentence that the screen opens with. */
export function planSentence(rows: readonly LaneRow[], check: PlanCheck): string {
  if (rows.length === 0) return 'Nothing is planned yet. Start from what the car gets.';
  const whole = rows.filter(({ channel, load, drivers }) => channel && load && drivers.length > 0).length;
  const missing = rows.length - whole;
  const paths =
    missing === 0
      ? 'Every driver has a path.'
      : `${countWords(missing, 'lane is', 'lanes are')} not connected from end to end.`;
  const { stop, fix } = countsOf(check);
  if (stop > 0) return `${paths} ${countWords(stop, 'thing cannot', 'things cannot')} be built as drawn.`;
  if (fix > 0) return `${paths} ${countWords(fix, 'thing would', 'things would')} not work well.`;
  return check.cannotTell.length > 0 ? `${paths} Nothing known speaks against it.` : `${paths} It can be built.`;
}

function edgeWords(after: PartOf<'channel'>['highPass'], style: NumberStyle): string {
  return after === null || after === undefined ? 'no filter' : frequencyText(after.fHz, style);
}

/** What a change does, as a button says it. */
export function changeWords(plan: Plan, { part, id, value }: PlanChange, style: NumberStyle): string {
  const [one] = kindWords[part];
  if (value === null) return `Take ${one} ${id} out`;
  const before = (plan[part] as Part[]).find((known) => known.id === id);
  if (before === undefined) return `Add ${one} ${id}`;
  const differs = (field: string) =>
    !sameValue((before as Record<string, unknown>)[field], (value as Record<string, unknown>)[field]);
  if (part === 'load' && differs('network')) {
    const { network } = value as PartOf<'load'>;
    const words = wiringWords(network, plan.driver);
    const usual =
      network !== undefined && typeof network !== 'string' && 's' in network ? 'Wire in series' : `Wire ${words}`;
    return usual;
  }
  if (part === 'channel' && differs('highPass'))
    return `Use ${edgeWords((value as PartOf<'channel'>).highPass, style)}`;
  if (part === 'channel' && differs('lowPass')) return `Use ${edgeWords((value as PartOf<'channel'>).lowPass, style)}`;
  if (part === 'channel' && differs('polarity')) return 'Turn its polarity';
  if (part === 'fuse' && differs('ratedA')) return `Fit ${numberText((value as PartOf<'fuse'>).ratedA ?? 0, style)} A`;
  if ((part === 'run' || part === 'ground') && differs('areaMm2') && 'areaMm2' in (value as object))
    return `Use ${numberText((value as PartOf<'run'>).areaMm2 ?? 0, style)} mm\u00b2`;
  return `Change ${one} ${id}`;
}

/** What clears like findings as the words of one button; null where no press can. */
export function mendWords(plan: Plan, group: FindingGroup, style: NumberStyle): string | null {
  const [first, ...more] = group[0].changes ?? [];
  if (first === undefined) return null;
  const words = changeWords(plan, first as PlanChange, style);
  if (more.length > 0) return `${words}, and ${more.length} more`;
  return group.length === 1 ? words : `${words} for ${group.length === 2 ? 'both' : `all ${group.length}`}`;
}

/** The places of like findings: `driver D3 and D4`. */
export function placesWords(group: FindingGroup): string {
  const [first, ...others] = group.map(({ place }) => place);
  const ids = others.map((place) => place.replace(/^\S+ /, ''));
  return ids.length === 0 ? first : `${[first, ...ids.slice(0, -1)].join(', ')} and ${ids[ids.length - 1]}`;
}
