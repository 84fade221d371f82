// The command line's door: finds the command, runs it, prints what came of it, and leaves with the status that says so.
import { version } from '../../package.json';
import type { Issue } from '../base/result.ts';
import { readCall } from './arguments.ts';
import { catalogue } from './catalogue.ts';
import type { Command, CommandOutcome } from './command.ts';
import { commandHelp, generalHelp } from './help.ts';
import { nearestWord } from './nearest-word.ts';
import { errorObject, errorText, plainText, textStyle, writeAll } from './output.ts';
import { progressLine } from './progress.ts';

const style = textStyle(process.stdout, process.env);
const shown = (text: string) => (style.unicode ? text : plainText(text));

function printBadNews(status: 2 | 3, issues: Issue[], json: boolean): number {
  if (json) writeAll(1, `${JSON.stringify(errorObject(issues))}\n`);
  else writeAll(2, shown(errorText(issues)));
  return status;
}

function printAnswer(answer: object, text: string, json: boolean): number {
  writeAll(1, json ? `${JSON.stringify(answer)}\n` : shown(text));
  return 0;
}

/** A throw that got this far is our own mistake; its stack is for those who mend it. */
function printFault(error: unknown, json: boolean): number {
  if (process.env.KICKPANEL_DEBUG && error instanceof Error) writeAll(2, `${error.stack}\n`);
  const message = error instanceof Error ? error.message : String(error);
  const mend = 'This is a fault of Kickpanel, not of your files. Run it again with KICKPANEL_DEBUG=1 to see where.';
  return printBadNews(3, [{ code: 'internal', message, mend }], json);
}

async function runCommand(command: Command, words: string[], json: boolean): Promise<number> {
  if (words.some((word) => word === '--help' || word === '-h')) {
    const { run, ...help } = command;
    return printAnswer(help, commandHelp(command, style.width), json);
  }
  const call = readCall(words, command);
  if (!call.ok) return printBadNews(2, call.issues, json);
  const progress = progressLine(process.stderr.isTTY === true, () => performance.now());
  const { operands, given } = call.value;
  let outcome: CommandOutcome;
  try {
    outcome = await command.run({ operands, given: (option) => given.get(option), onProgress: progress.report });
  } finally {
    progress.clear();
  }
  if (outcome.status === 2) return printBadNews(2, outcome.issues, json);
  printAnswer(outcome.answer, json ? '' : outcome.text(style), json);
  return outcome.status;
}

function unknownName(name: string, json: boolean): number {
  const option = name.startsWith('-');
  const near = nearestWord(name, option ? ['--help', '--version', '--json'] : catalogue.map((known) => known.name));
  const list = '"kickpanel --help" lists the commands.';
  const issue: Issue = {
    code: option ? 'unknown-option' : 'unknown-command',
    message: option ? 'There is no such option before the command.' : 'There is no such command.',
    where: name,
    mend: near === null ? list : `Did you mean ${near}? ${list}`,
  };
  return printBadNews(2, [issue], json);
}

async function main(call: string[], json: boolean): Promise<number> {
  const words = call[0] === 'help' ? [...call.slice(1), '--help'] : call;
  const [name = '', ...rest] = words[0] === '--json' ? words.slice(1) : words;
  if (name === '--version') return printAnswer({ version }, `${version}\n`, json);
  if (name === '' || name === '--help' || name === '-h') {
    const commands = catalogue.map(({ name, summary }) => ({ name, summary }));
    return printAnswer({ version, commands }, generalHelp(commands, style.width), json);
  }
  const entry = catalogue.find((known) => known.name === name);
  return entry === undefined ? unknownName(name, json) : runCommand((await entry.load()).command, rest, json);
}

const words = process.argv.slice(2);
const json = words.includes('--json');
process.on('uncaughtException', (error) => process.exit(printFault(error, json)));
process.exitCode = await main(words, json).catch((error) => printFault(error, json));
