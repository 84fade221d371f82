// `walk`: what was heard where, explained by the fewest wiring faults, with the test that tells ties apart.
import { channelWalk, type WalkAnswer } from '../../wiring/walk.ts';
import { walkContradictions, walkSchema } from '../../wiring/walk-request.ts';
import type { Command } from '../command.ts';
import { readJsonFile } from '../json-file.ts';
import type { TextStyle } from '../output.ts';
import { wrapped } from '../wrap.ts';

const SHOWN = 12;
const CAUTION =
  'Before a lead is moved: volume down, amplifier off. A tweeter that gets another output’s sound can be destroyed at any level.';

const headlines: Record<WalkAnswer['status'], string> = {
  'as planned': 'Everything that was heard is as planned.',
  explained: 'One set of faults explains all that was heard:',
  tie: 'These sets of faults explain all that was heard equally well:',
  unexplained: 'No plausible set of faults explains what was heard.',
};

function walkText({ status, explanations, nextTests, remarks, notProven }: WalkAnswer, { width }: TextStyle): string {
  const lines = [headlines[status]];
  if (status !== 'as planned') {
    lines.push(...explanations.slice(0, SHOWN).flatMap(({ faults }) => wrapped(`  ${faults.join(', ')}`, width, 4)));
    if (explanations.length > SHOWN) lines.push(`  and ${explanations.length - SHOWN} more`);
  }
  lines.push(...remarks.flatMap((remark) => wrapped(remark, width)));
  const [next] = nextTests;
  if (next) {
    lines.push('', ...wrapped(`Test next: ${next.test}`, width));
    for (const { outcome, explanations: left } of next.outcomes) {
      lines.push(`  ${outcome}: leaves ${left.length} of ${explanations.length}`);
    }
  }
  if (notProven.length > 0) lines.push('', ...wrapped(`Polarity not told yet: ${notProven.join(', ')}.`, width, 2));
  if (status !== 'as planned') lines.push('', ...wrapped(`Caution: ${CAUTION}`, width, 2));
  return `${lines.join('\n')}\n`;
}

export const command: Command = {
  name: 'walk',
  summary: 'explain what was heard in a channel walk by the fewest wiring faults',
  usage: 'walk FILE.json',
  details:
    'FILE holds the plan of the channels and, for each test, the side and outputs that played and every place that sounded ("kickpanel schema walk" prints its form). All explanations of least cost are listed, and the test that tells them apart best; write its result into "answers" and call again. Status 1: what was heard has no explanation.',
  options: [],
  example: 'kickpanel walk examples/walk.json',
  run({ operands }) {
    const [file, ...more] = operands;
    if (file === undefined || more.length > 0) {
      const message = file === undefined ? 'Name the file of the walk.' : 'walk takes one file.';
      return { status: 2, issues: [{ code: 'one-file', message, mend: 'kickpanel walk FILE.json' }] };
    }
    const read = readJsonFile(file, walkSchema, 'a walk (plan and observations)');
    if (!read.ok) return { status: 2, issues: read.issues };
    const issues = walkContradictions(read.value).map((issue) => ({ ...issue, where: `${file}: ${issue.where}` }));
    if (issues.length > 0) return { status: 2, issues };
    const answer = channelWalk(read.value);
    return {
      status: answer.unexplained ? 1 : 0,
      answer: { schema: 'kickpanel.walk/1', ...answer },
      text: (style) => walkText(answer, style),
    };
  },
};
