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

/** A value may start with a dash where it is a number (`--level -20`) or a single dash; otherwise it is the next option. */
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
    args: words.map((word) => (word === '-h' ? '--help' : word)),
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
  const complain = (code: string, where: string, message: string, mend: string) =>
    issues.push({ code, message, where, mend });
  for (const token of tokens) {
    if (token.kind === 'positional') operands.push(token.value);
    if (token.kind !== 'option') continue;
    const { name, rawName, value } = token;
    const option = rawName.startsWith('--') ? known.get(name) : undefined;
    if (option === undefined) {
      const near = nearestWord(name, [...known.keys()]);
      const all = `"kickpanel ${command.name} --help" lists its options.`;
      const mend = near === null ? all : `Did you mean --${near}? ${all}`;
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
