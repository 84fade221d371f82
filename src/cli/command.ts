// What a command is: what its help says, and a run that takes the call and gives back an outcome. Nothing here prints.
import type { Issue } from '../base/result.ts';
import type { TextStyle } from './output.ts';

/** One option as the help shows it and the call is read. Every command also takes `--json` and `--help`. */
export interface CommandOption {
  /** Without the dashes. */
  name: string;
  /** What stands for its value in the help, such as `HZ`; absent for a switch. */
  value?: string;
  meaning: string;
  /** What holds when it is not given, in words. */
  default?: string;
}

/** The call, read but not yet believed. */
export interface CommandContext {
  /** Arguments that are not options, in order. */
  operands: string[];
  /** The text given for an option, `''` for a switch that was set, undefined when it was not given. */
  given: (option: string) => string | undefined;
  /** Says how far long work has come; shown on a terminal only. */
  onProgress: (share: number, doing: string) => void;
}

/**
 * What came of it. `answer` is what `--json` prints, `text` what a person reads instead. Status 1 says that the work was
 * done and the answer is a refusal; issues say that the call or an input is bad.
 */
export type CommandOutcome =
  | { status: 0 | 1; answer: object; text: (style: TextStyle) => string }
  | { status: 2; issues: Issue[] };

/** A command file exports one of these as `command`. */
export interface Command {
  name: string;
  /** One line for the list of commands. */
  summary: string;
  /** The call without `kickpanel`, such as `read REC.wav --track F.track.json`. */
  usage: string;
  /** What the help says beyond the options. */
  details?: string;
  options: CommandOption[];
  /** A call that can be typed as it stands. */
  example: string;
  run: (context: CommandContext) => CommandOutcome | Promise<CommandOutcome>;
}
