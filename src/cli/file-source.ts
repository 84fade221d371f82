// A file that the call names, opened as a source of bytes, or why it cannot be.
import { statSync } from 'node:fs';
import { failure, type Result, success } from '../base/result.ts';
import { type FileSource, fileSource } from '../store/file-source.ts';

import { pathIssue } from './text-file.ts';

export type { FileSource };

/**
 * Opens a file for reading.
 *
 * Only plain files: a pipe or a device has no size, and opening one could wait for ever.
 *
 * @returns the source, whose `read` throws RangeError outside the file and Error (code `file-changed`) if the file has
 * become shorter since; or why it cannot be opened
 */
export function openFileSource(path: string): Result<FileSource> {
  try {
    if (!statSync(path).isFile()) {
      const folder = statSync(path).isDirectory();
      return failure({
        code: 'not-a-file',
        message: folder ? 'This is a folder.' : 'This is not a plain file.',
        where: path,
        mend: 'Give a file.',
      });
    }
    return success(fileSource(path));
  } catch (error) {
    return failure(pathIssue(path, error, 'read'));
  }
}
