// Writing a file so that it is there whole or not at all.
import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { failure, type Result, success } from '../base/result.ts';
import { pathIssue } from './text-file.ts';

/** Writes beside `path` first and then renames: an interrupted write leaves what was there before. */
export function writeWholeFile(path: string, content: string | Uint8Array): Result<void> {
  const draft = `${path}.${process.pid}.tmp`;
  try {
    const file = openSync(draft, 'w');
    try {
      writeFileSync(file, content);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(draft, path);
    return success(undefined);
  } catch (error) {
    rmSync(draft, { force: true });
    return failure(pathIssue(path, error, 'written'));
  }
}
