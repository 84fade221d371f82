// An open file as a source of bytes: read where asked, with a buffer so that small steps through it cost few system calls.
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import type { ByteSource } from '../signals/recording.ts';

/** A byte source that holds a file open until `close`. */
export interface FileSource extends ByteSource {
  close(): void;
}

/** Read beyond what was asked while the reads follow each other. */
const aheadBytes = 1 << 20;
/** Read beyond what was asked elsewhere: a header and its neighbours. */
const nearBytes = 1 << 12;

/**
 * Opens a file as a source.
 *
 * @returns a source whose `read` throws RangeError outside the file and Error (code `file-changed`) if the file has become
 * shorter since
 * @throws what node throws when the file cannot be opened
 */
export function fileSource(path: string): FileSource {
  return sourceOf(openSync(path, 'r'), path);
}

function sourceOf(file: number, path: string): FileSource {
  const { size: byteLength } = fstatSync(file);
  let buffer = new Uint8Array(0);
  let bufferAt = 0;
  let filled = 0;
  let open = true;

  /** Puts at least `length` bytes from `offset` into the buffer, and up to `wanted` if there are as many. */
  function fill(offset: number, length: number, wanted: number): void {
    const target = Math.min(wanted, byteLength - offset);
    if (buffer.length < target) buffer = new Uint8Array(target);
    bufferAt = offset;
    filled = 0;
    while (filled < target) {
      const got = readSync(file, buffer, filled, target - filled, offset + filled);
      if (got === 0) break;
      filled += got;
    }
    if (filled < length) {
      throw Object.assign(new Error(`${path} has become shorter while it was read`), { code: 'file-changed' });
    }
  }

  return {
    byteLength,
    read(offset, length) {
      if (!(offset >= 0 && length >= 0 && offset + length <= byteLength)) {
        throw new RangeError(`bytes ${offset} + ${length} must lie within the ${byteLength} of ${path}`);
      }
      if (!open) throw new Error(`${path} has been closed`);
      if (offset < bufferAt || offset + length > bufferAt + filled) {
        const follows = offset >= bufferAt && offset <= bufferAt + filled && filled > 0;
        fill(offset, length, Math.max(length, follows ? aheadBytes : nearBytes));
      }
      return buffer.subarray(offset - bufferAt, offset - bufferAt + length);
    },
    close() {
      if (open) closeSync(file);
      open = false;
    },
  };
}
