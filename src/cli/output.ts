// Where words leave the process: one JSON object or a person's text on stdout, errors and progress on stderr.
import { writeSync } from 'node:fs';
import type { Issue } from '../base/result.ts';

/** How text may be set here. */
export interface TextStyle {
  /** Columns to fill at most. */
  width: number;
  /** Whether block and line characters beyond ASCII show. */
  unicode: boolean;
  /** Whether escape codes may weigh words; nothing may depend on it. */
  colour: boolean;
}

interface Terminal {
  isTTY?: boolean;
  columns?: number;
}

/** The style that a stream and an environment allow: 80 columns where nothing is known, ASCII unless UTF-8 is promised. */
export function textStyle(stream: Terminal, environment: Record<string, string | undefined>): TextStyle {
  const locale = environment.LC_ALL || environment.LC_CTYPE || environment.LANG || '';
  const terminal = stream.isTTY === true;
  return {
    width: terminal && stream.columns !== undefined ? Math.min(Math.max(stream.columns, 60), 120) : 80,
    unicode: /utf-?8/i.test(locale),
    colour: terminal && !environment.NO_COLOR && environment.TERM !== 'dumb',
  };
}

/** The JSON form of bad news: the first issue, and all of them when there are more. */
export function errorObject(issues: Issue[]): { error: Issue & { issues?: Issue[] } } {
  const first = issues[0] ?? { code: 'internal', message: 'something failed without saying what' };
  return { error: issues.length > 1 ? { ...first, issues } : { ...first } };
}

/** Bad news for a person: what, where, and how to mend it. */
export function errorText(issues: Issue[]): string {
  return issues
    .map((issue) => {
      const where = issue.where === undefined ? '' : `${issue.where}: `;
      const mend = issue.mend === undefined ? '' : `\n  ${issue.mend}`;
      return `kickpanel: ${where}${issue.message}${mend}\n`;
    })
    .join('');
}

const plainSigns: Record<string, string> = {
  '\u2018': "'",
  '\u2019': "'",
  '\u201c': '"',
  '\u201d': '"',
  '\u2013': '-',
  '\u2014': '-',
  '\u2212': '-',
  '\u2026': '...',
  '\u00a0': ' ',
  '\u00b0': ' deg',
  '\u00b1': '+-',
  '\u00b5': 'u',
  '\u2264': '<=',
  '\u2265': '>=',
};

/** `text` in ASCII, for where nothing else shows; a sign without a stand-in becomes a question mark. */
export function plainText(text: string): string {
  return text.replace(/[^\n -~]/gu, (sign) => plainSigns[sign] ?? '?');
}

/**
 * Writes all of `text` to a file descriptor before it returns, so that leaving the process cuts nothing off.
 *
 * A reader that went away (`| head`) is no fault: the rest is dropped in silence. A pipe that is full for now is tried
 * again.
 *
 * @returns false when the reader is gone
 */
export function writeAll(descriptor: number, text: string): boolean {
  let bytes = new TextEncoder().encode(text);
  while (bytes.length > 0) {
    try {
      bytes = bytes.subarray(writeSync(descriptor, bytes));
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === 'EPIPE') return false;
      if (code !== 'EAGAIN') throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
    }
  }
  return true;
}
