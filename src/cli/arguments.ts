// From the words of the call to operands and options, each complaint with the word that was most likely meant.
import { parseArgs } from 'node:util';
import { failure, type Issue, type Result, success } from '../base/result.ts';
import type { Command, CommandOption } from './command.ts';
import { nearestWord } from './nearest-word.ts';

/** Options that every command takes. */
export const commonOptions: CommandOption[] = [
  { name: 'json', meaning: 'print one JSON object on stdout and nothing else there' },
  { name: 'help', meaning: 'show this help' },
];

/** A call whose words are known; whether their values make sense is the command's to say. */
export interface Call {
  operands: string[];
  given: Map<string, string>;
}

/** Set before a word such as `-20`, so that it is a number and not a row of one-letter options. */
const numberMark = '\0';

const unmarked = (word: string) => (word.startsWith(numberMark) ? word.slice(1) : word);

/** A value does not start with a dash, but for numbers and a single dash: it would be the next option. */
function looksLikeOption(value: string): boolean {
  return /^-[^\d.]/.test(value);
}

/**
 * Reads what follows the command's name.
 *
 * @returns operands in order and the options given, or every word that cannot be understood
 */
export function readCall(words: string[], command: Pick<Command, 'name' | 'options'>): Result<Call> {
  const known = new Map([...command.options, ...commonOptions].map((option) => [option.name, option]));
  const { tokens } = parseArgs({
    args: words.map((word) => (/^-[\d.]/.test(word) ? numberMark + word : word === '-h' ? '--help' : word)),
    strict: false,
    allowPositionals: true,
    tokens: true,
    options: Object.fromEntries(
      [...known.values()].map((option) => [
        option.name,
        { type: option.value === undefined ? ('boolean' as const) : ('string' as const) },
      ]),
    ),
  });
  const operands: string[] = [];
  const given = new Map<string, string>();
  const issues: Issue[] = [];
  let unknownAt = Number.NaN;
  const complain = (code: string, where: string, message: string, mend: string) =>
    issues.push({ code, message, where, mend });
  for (const token of tokens) {
    if (token.kind === 'positional') {
      // What follows an option that is not known was most likely meant as its value.
      if (!token.value.startsWith(numberMark) || token.index !== unknownAt + 1) operands.push(unmarked(token.value));
    }
    if (token.kind !== 'option') continue;
    const { name, rawName } = token;
    const value = token.value === undefined ? undefined : unmarked(token.value);
    const option = rawName.startsWith('--') ? known.get(name) : undefined;
    if (option === undefined) {
      const near = nearestWord(name, [...known.keys()]);
      const all = `"kickpanel ${command.name} --help" lists its options.`;
      const mend = near === null ? all : `Did you mean --${near}? ${all}`;
      if (!token.inlineValue) unknownAt = token.index;
      complain('unknown-option', rawName, `${command.name} has no option ${rawName}.`, mend);
    } else if (option.value === undefined && value !== undefined) {
      complain('value-not-expected', rawName, `${rawName} takes no value, got "${value}".`, `Give ${rawName} alone.`);
    } else if (option.value !== undefined && (value === undefined || (!token.inlineValue && looksLikeOption(value)))) {
      complain('value-missing', rawName, `${rawName} needs a value.`, `Give it as ${rawName} ${option.value}.`);
    } else if (given.has(name) && option.value !== undefined) {
      complain('option-twice', rawName, `${rawName} was given twice.`, `Keep one ${rawName}.`);
    } else {
      given.set(name, value ?? '');
    }
  }
  return issues.length > 0 ? failure(...issues) : success({ operands, given });
}
