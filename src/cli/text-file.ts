// Reading small text files whole, and saying what is wrong with a path in words.
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { failure, type Issue, type Result, success } from '../base/result.ts';
import { textFromBytes } from '../measurement/calibration-text.ts';
import { nearestWord } from './nearest-word.ts';

function neighbours(path: string): string[] {
  try {
    return readdirSync(dirname(path));
  } catch {
    return [];
  }
}

/** What a failed read or write of `path` means to a person; `error` is what node threw. */
export function pathIssue(path: string, error: unknown, what: 'read' | 'written'): Issue {
  const code = (error as NodeJS.ErrnoException).code ?? 'unknown';
  const near = code === 'ENOENT' && what === 'read' ? nearestWord(basename(path), neighbours(path)) : null;
  const known: Record<string, [string, string, string]> = {
    ENOENT:
      what === 'read'
        ? ['file-not-found', 'There is no such file.', near === null ? 'Check the path.' : `Did you mean ${near}?`]
        : ['folder-not-found', 'Its folder does not exist.', 'Make the folder first, or write somewhere else.'],
    ENOTDIR: ['folder-not-found', 'A part of the path is a file, not a folder.', 'Check the path.'],
    EISDIR: ['not-a-file', 'This is a folder.', 'Give a file.'],
    EACCES: ['not-allowed', `It may not be ${what}.`, 'Check who may use this file.'],
    EPERM: ['not-allowed', `It may not be ${what}.`, 'Check who may use this file.'],
    EROFS: ['not-allowed', 'It is on a read-only drive.', 'Write somewhere else.'],
    ENOSPC: ['drive-full', 'The drive is full.', 'Make room or write to another drive.'],
  };
  const [name, message, mend] = known[code] ?? [`not-${what}`, `It could not be ${what} (${code}).`, 'Try again.'];
  return { code: name, message, where: path, mend };
}

/**
 * The text of a file in UTF-8 or UTF-16, without a byte order mark.
 *
 * @param maxBytes larger files are refused before they are read
 */
export function readTextFile(path: string, maxBytes: number): Result<string> {
  try {
    const { size } = statSync(path);
    if (size > maxBytes) {
      const message = `The file has ${(size / 1e6).toFixed(0)} MB, more than the ${maxBytes / 1e6} MB that such a file can need.`;
      return failure({ code: 'file-too-large', message, where: path, mend: 'Check that this is the right file.' });
    }
    return success(textFromBytes(readFileSync(path)));
  } catch (error) {
    return failure(pathIssue(path, error, 'read'));
  }
}
