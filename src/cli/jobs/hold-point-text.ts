// Hold points, tests and covers as a person reads them on a terminal.
import type { CoverReport } from '../../job/hold-points/behind-cover.ts';
import type { HoldPoint } from '../../job/hold-points/hold-points.ts';
import type { ShortestTests } from '../../job/hold-points/shortest-tests.ts';
import { counted } from '../../job/rules/words.ts';
import type { TextStyle } from '../output.ts';
import { wrapped } from '../wrap.ts';

export function coverWords({
  cover,
  letter,
  name,
  state,
}: Pick<CoverReport, 'cover' | 'letter' | 'name' | 'state'>): string {
  const id = letter === null || letter === cover ? cover : `${letter}, ${cover}`;
  return `${name === null ? id : `${name} (${id})`}: ${state}`;
}

function hiddenWords({ covers, coversKnown }: HoldPoint): string {
  if (covers.length > 0) return `Behind ${covers.map((cover) => coverWords(cover)).join('; ')}.`;
  return coversKnown ? 'No cover hides it.' : 'The plan does not say which cover hides it.';
}

export function pointLines(point: HoldPoint): string[] {
  const { id, state, stage, says, reason, closes } = point;
  const how = state === 'closed' ? [] : [`      ${closes}`];
  return [
    `${state.padEnd(9)}  ${id}  (${stage})`,
    `      ${says}`,
    `      ${reason}`,
    ...how,
    `      ${hiddenWords(point)}`,
    '',
  ];
}

export function testLines({ tests, exact }: ShortestTests): string[] {
  if (tests.length === 0) return [];
  const fewest = exact ? 'The fewest tests that clear them' : 'Tests that clear them, the largest first';
  const minutes = tests.reduce((sum, test) => sum + test.minutes, 0);
  return [
    `${fewest}: ${counted(tests.length, 'test')}, about ${counted(Math.ceil(minutes), 'minute')} by practice.`,
    ...tests.flatMap(({ name, says, opens, clears }, n) => [
      `  ${n + 1}  ${name} (clears ${clears.length})`,
      `      ${says}`,
      ...(opens.length === 0 ? [] : [`      Off for it: ${opens.join(', ')}.`]),
    ]),
  ];
}

export function inWidth(lines: readonly string[], { width }: TextStyle): string {
  return `${lines
    .flatMap((line) => wrapped(line, width, 6))
    .join('\n')
    .trimEnd()}\n`;
}

export function coverLine(report: CoverReport): string {
  const { open, closed, passedOver } = report;
  const all = open.length + closed.length;
  const state = all === 0 ? 'hides nothing that must be proven' : `${open.length} of ${counted(all, 'point')} open`;
  const over =
    passedOver === null
      ? ''
      : ` Fastened over ${passedOver.holdPoints.length} by ${passedOver.name}: ${passedOver.why}`;
  return `  ${coverWords(report)}, ${state}.${over}`;
}
