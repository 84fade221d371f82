// A plan and what is found in it, as a person reads them on a terminal.
import type { PlanCheck } from '../../job/projections/plan-check.ts';
import { type Plan, partKinds } from '../../plan/plan.ts';
import type { TextStyle } from '../output.ts';
import { twoColumns, wrapped } from '../wrap.ts';

const counted = (number: number, word: string) => `${number} ${word}`;

export function planCheckText({ findings, cannotTell }: PlanCheck, style: TextStyle): string {
  const lines = findings.flatMap((found) => {
    const { severity, id, place, message, clears, accepted } = found;
    const by =
      accepted === undefined
        ? []
        : [
            `      Accepted by ${accepted.who}: ${accepted.why}${accepted.stale ? ` No longer: ${accepted.stale}` : ''}`,
          ];
    return [`${severity.padEnd(4)}  ${id}  ${place}`, `      ${message}`, `      ${clears}`, ...by, ''];
  });
  const of = (wanted: string) => findings.filter(({ severity }) => severity === wanted).length;
  const sum = `${counted(of('stop'), 'to stop for')}, ${counted(of('fix'), 'to fix')}, ${counted(of('note'), 'to note')}.`;
  const unknown = cannotTell.map(({ id, place, needs }) => `  ${id}  ${place}: ${needs}`);
  const open = unknown.length === 0 ? [] : ['', `${unknown.length} cannot be told yet, for want of:`, ...unknown];
  return `${[...lines, sum, ...open].flatMap((line) => wrapped(line, style.width, 6)).join('\n')}\n`;
}

export function planText(plan: Plan, style: TextStyle): string {
  const rows = partKinds.flatMap((kind) =>
    plan[kind].map((part): [string, string] => {
      const { id, ...rest } = part;
      const said = Object.entries(rest).map(
        ([field, value]) => `${field} ${typeof value === 'string' ? value : JSON.stringify(value)}`,
      );
      return [`${kind} ${id}`, said.join(', ')];
    }),
  );
  if (rows.length === 0) return 'The plan is empty. Start one: kickpanel job plan template JOB NAME\n';
  return `${twoColumns(rows, style.width).join('\n')}\n`;
}
