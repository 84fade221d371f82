// What the help says: of the whole, and of one command.
import { commonOptions } from './arguments.ts';
import type { Command } from './command.ts';
import { twoColumns, wrapped } from './wrap.ts';

/** The exit statuses, which scripts rely on. */
const statuses: [string, string][] = [
  ['0', 'done'],
  ['1', 'done, and the answer is a refusal: the take is unusable, or a stop finding stands'],
  ['2', 'the call or an input is bad'],
  ['3', 'a fault of ours'],
];

/** The list of commands and how to go on from there. */
export function generalHelp(commands: { name: string; summary: string }[], width: number): string {
  return `${[
    ...wrapped(
      'Kickpanel carries a car-audio installation from plan to hand-over and proves each step by measurement.',
      width,
    ),
    '',
    'Usage: kickpanel COMMAND ...',
    '',
    'Commands:',
    ...twoColumns(
      commands.map(({ name, summary }) => [name, summary]),
      width,
    ),
    '',
    'Everywhere:',
    ...twoColumns(
      [
        ['COMMAND --help', "a command's options, with an example"],
        ['--json', 'print one JSON object on stdout and nothing else there'],
        ['--version', 'print the version'],
      ],
      width,
    ),
    '',
    'Exit status:',
    ...twoColumns(statuses, width),
  ].join('\n')}\n`;
}

/** What one command does, its options and an example. */
export function commandHelp(command: Command, width: number): string {
  const options = [...command.options, ...commonOptions].map(
    ({ name, value, meaning, ...option }): [string, string] => [
      `--${name}${value === undefined ? '' : ` ${value}`}`,
      option.default === undefined ? meaning : `${meaning} (default: ${option.default})`,
    ],
  );
  const summary = `${command.summary.charAt(0).toUpperCase()}${command.summary.slice(1)}.`;
  return `${[
    ...wrapped(summary, width),
    '',
    ...wrapped(`Usage: kickpanel ${command.usage}`, width, 7),
    ...(command.details === undefined ? [] : ['', ...wrapped(command.details, width)]),
    '',
    'Options:',
    ...twoColumns(options, width),
    '',
    'Example:',
    ...command.example.split('\n').map((line) => `  ${line}`),
  ].join('\n')}\n`;
}
