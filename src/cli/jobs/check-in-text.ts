// The checks of a car as a person reads them on a terminal.
import type { CheckIn, CheckReport } from '../../job/check-in/check-in.ts';
import type { TextStyle } from '../output.ts';
import { inWidth } from './hold-point-text.ts';

const titles: Record<CheckReport['group'], string> = {
  complaint: 'The complaint',
  condition: 'Condition',
  marks: 'Marks it came with',
  battery: 'Battery',
  dash: 'Dash',
  sounds: 'Factory sounds',
  works: 'What works',
  baseline: 'Before any work',
};

function stageWords(answer: CheckReport['arrive']): string {
  if (answer === null) return 'open';
  return answer.why === undefined ? answer.says : `${answer.says}. ${answer.why}`;
}

function reportLines(report: CheckReport): string[] {
  const { check, name, says, caution, arrive, refit, difference, expected } = report;
  const range =
    expected === null
      ? []
      : [`      Expected ${expected.low} to ${expected.high} ${expected.unit} (${expected.source.kind}).`];
  const open = arrive === null && refit === null;
  const how = open ? [`      ${says}`, ...(caution === null ? [] : [`      Caution: ${caution}`])] : [];
  const again = refit === null ? [] : [`      Refit: ${stageWords(refit)}`, `      ${difference.says}`];
  return [`  ${check}  ${name}`, ...how, ...range, `      Arrive: ${stageWords(arrive)}`, ...again];
}

/** Group by group; what was not tried is told with how it is tried and what to mind. */
export function checkInText({ checks, counts, says }: CheckIn, complaint: string | null, style: TextStyle): string {
  const groups = [...new Set(checks.map(({ group }) => group))];
  const lines = groups.flatMap((group) => [
    titles[group],
    ...(group === 'complaint' && complaint !== null ? [`  "${complaint}"`] : []),
    ...checks.filter((report) => report.group === group).flatMap(reportLines),
    '',
  ]);
  const refit = counts.refit.done === 0 ? [] : [`Refit: ${says.refit}`];
  return inWidth([...lines, `Arrive: ${says.arrive}`, ...refit], style);
}
