// How often the polarity of one driver at the seat is told, and told rightly: npx tsx bench/polarity-study.ts [FIRST [LAST]]
import { type PolarityCase, polarityCases, polarityOutcome } from '../test/polarity/cases.ts';

const [first = 0, last = 399] = process.argv.slice(2).map(Number);

interface Row {
  takes: number;
  right: number;
  wrong: number;
  sureWrong: number;
  cannotSay: number;
  unusable: number;
}

const rows = new Map<string, Row>();
const labelOf = ({ kind, reflections, allPass }: PolarityCase): string =>
  `${kind}, ${reflections}${allPass ? ', hidden all-pass' : ''}`;

for (let index = first; index <= last; index++) {
  const one = polarityCases(index);
  const outcome = polarityOutcome(one);
  const row = rows.get(labelOf(one)) ?? { takes: 0, right: 0, wrong: 0, sureWrong: 0, cannotSay: 0, unusable: 0 };
  row.takes++;
  if (!outcome.usable) row.unusable++;
  else if (outcome.sign === 0) row.cannotSay++;
  else if (outcome.sign === outcome.truth) row.right++;
  else {
    row.wrong++;
    if (outcome.confidence >= 0.8) row.sureWrong++;
  }
  rows.set(labelOf(one), row);
  if (outcome.sign !== outcome.truth) {
    process.stderr.write(`${index} ${labelOf(one)}: ${outcome.sign} for ${outcome.truth}, ${outcome.reason}\n`);
  }
}

const lines = [
  '| driver, reflections | takes | right | wrong | wrong and sure | cannot say | unusable |',
  '| --- | --- | --- | --- | --- | --- | --- |',
];
for (const [label, row] of [...rows].sort(([a], [b]) => (a < b ? -1 : 1))) {
  const { takes, right, wrong, sureWrong, cannotSay, unusable } = row;
  lines.push(`| ${[label, takes, right, wrong, sureWrong, cannotSay, unusable].join(' | ')} |`);
}
process.stdout.write(`${lines.join('\n')}\n`);
