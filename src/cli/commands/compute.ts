// `compute`: one everyday calculation, for scripts and for those who like to type.
import type { Calculation } from '../../base/calculation.ts';
import { refused } from '../../base/refusal.ts';
import { type Result, success } from '../../base/result.ts';
import type { Command, CommandOutcome } from '../command.ts';
import { listed, listText } from '../compute/calculation-list.ts';
import { givenInputs } from '../compute/given-inputs.ts';
import { resultText } from '../compute/result-text.ts';
import { type Topic, topics } from '../compute/topics.ts';
import { nearestWord } from '../nearest-word.ts';
import { twoColumns } from '../wrap.ts';

/** Names from outside are cut short in messages. */
const short = (name: string) => (name.length > 40 ? `${name.slice(0, 37)}...` : name);

function topicNamed(name: string): Result<Topic> {
  const found = topics.find((topic) => topic.name === name);
  if (found !== undefined) return success(found);
  const names = topics.map((topic) => topic.name);
  const near = nearestWord(name, names);
  const mend = `${near === null ? '' : `Did you mean ${near}? `}Known: ${names.join(', ')}.`;
  return refused('unsupported', short(name), 'There is no such topic.', mend);
}

function calculationNamed(calc: unknown, topic: Topic, known: readonly Calculation[]): Result<Calculation> {
  const names = known.map(({ name }) => name);
  const list = `Known in ${topic.name}: ${names.join(', ')}.`;
  if (calc === undefined || calc === null || calc === '') {
    return refused('missing', 'calc', 'calc is missing: it names the calculation.', list);
  }
  const found = known.find(({ name }) => name === calc);
  if (found !== undefined) return success(found);
  const near = typeof calc === 'string' ? nearestWord(calc.slice(0, 40), names) : null;
  const shown = typeof calc === 'string' ? `"${short(calc)}"` : 'what calc names';
  const message = `${topic.name} has no calculation ${shown}.`;
  return refused('unsupported', 'calc', message, `${near === null ? '' : `Did you mean ${near}? `}${list}`);
}

/** Inputs that the calculation does not know, most likely mistyped. */
function unusedNote(given: object, { inputs }: Calculation): [string, string][] {
  const known = Object.keys(inputs);
  const unused = Object.keys(given).filter((name) => name !== 'calc' && !known.includes(name));
  if (unused.length === 0) return [];
  const words = unused.slice(0, 5).map((name) => {
    const near = nearestWord(name.slice(0, 40), known);
    return near === null ? short(name) : `${short(name)} (did you mean ${near}?)`;
  });
  return [['Not used', `${words.join(', ')}${unused.length > 5 ? `, and ${unused.length - 5} more` : ''}`]];
}

async function compute(topic: Topic, file: string | undefined): Promise<CommandOutcome> {
  const given = givenInputs(file);
  if (!given.ok) return { status: 2, issues: given.issues };
  const found = calculationNamed(given.value.calc, topic, await topic.load());
  if (!found.ok) return { status: 2, issues: found.issues };
  const { name, about, caution, run } = found.value;
  const answer = run(given.value);
  if (!answer.ok) return { status: 2, issues: answer.issues };
  const cautions: [string, string][] = caution === undefined ? [] : [['Caution', caution]];
  const notes = [...unusedNote(given.value, found.value), ...cautions];
  return {
    status: 0,
    answer: answer.value,
    text: (style) => resultText(`${name}: ${about}`, answer.value, notes, style),
  };
}

export const command: Command = {
  name: 'compute',
  summary: 'one everyday calculation of a topic; without a topic it lists the topics',
  usage: 'compute [TOPIC [FILE.json|-]] [--list]',
  details:
    'FILE or stdin holds the inputs as one JSON object; its "calc" names the calculation. What is not given takes its default. Inputs that cannot be worked with end with status 2 and one of six codes: missing, not-a-number, out-of-range, contradiction, no-solution, unsupported.',
  options: [{ name: 'list', meaning: 'list the calculations of the topic with their inputs, units and defaults' }],
  example: `kickpanel compute loads --list\nkickpanel compute exposure day.json --json\necho '{"calc":"wireArea","awg":4}' | kickpanel compute electrical`,
  async run({ operands, given }) {
    const [name, file, ...more] = operands;
    if (more.length > 0) {
      const issue = { code: 'too-many-arguments', message: 'compute takes a topic and one file.', where: more[0] };
      return { status: 2, issues: [{ ...issue, mend: 'Give one file, or none to read stdin.' }] };
    }
    if (name === undefined) {
      const rows = topics.map(({ name, about }): [string, string] => [name, about]);
      const answer = { topics: topics.map(({ name, about }) => ({ name, about })) };
      return { status: 0, answer, text: (style) => `${twoColumns(rows, style.width).join('\n')}\n` };
    }
    const topic = topicNamed(name);
    if (!topic.ok) return { status: 2, issues: topic.issues };
    // At a terminal nothing would come from stdin but a person's wondering.
    if (given('list') !== undefined || (file === undefined && process.stdin.isTTY)) {
      const calculations = listed(await topic.value.load());
      return { status: 0, answer: { topic: name, calculations }, text: (style) => listText(calculations, style) };
    }
    return compute(topic.value, file);
  },
};
