import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { hash32 } from '../base/random.ts';
import { type FileSource, openFileSource } from './file-source.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'file-source-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

function opened(path: string): FileSource {
  const result = openFileSource(path);
  if (!result.ok) throw new Error(result.issues[0].message);
  return result.value;
}

function issueCode(path: string): string | undefined {
  const result = openFileSource(path);
  return result.ok ? undefined : result.issues[0].code;
}

describe('a file as a source of bytes', () => {
  it('gives the bytes that are there, whatever the order of the reads', () => {
    const bytes = Uint8Array.from({ length: 3_000_000 }, (_, i) => hash32(1, i) & 255);
    const path = join(folder, 'some.bin');
    writeFileSync(path, bytes);
    const source = opened(path);
    expect(source.byteLength).toBe(bytes.length);
    for (let k = 0; k < 400; k++) {
      const length = hash32(2, k) % (k % 10 === 0 ? 1_500_000 : 5000);
      // Every other read follows on the one before, as a decoder's do.
      const offset = k % 2 === 1 ? (hash32(3, k - 1) % 1_400_000) + 4000 : hash32(3, k) % 1_400_000;
      const got = source.read(offset, length);
      expect(Buffer.compare(got, bytes.subarray(offset, offset + length))).toBe(0);
    }
    expect(source.read(bytes.length, 0)).toHaveLength(0);
    expect(source.read(bytes.length - 1, 1)[0]).toBe(bytes[bytes.length - 1]);
    source.close();
  });

  it('gives an empty file as zero bytes', () => {
    writeFileSync(join(folder, 'empty'), '');
    const source = opened(join(folder, 'empty'));
    expect(source.byteLength).toBe(0);
    expect(source.read(0, 0)).toHaveLength(0);
    source.close();
  });

  it('refuses to read outside the file and after it was closed', () => {
    writeFileSync(join(folder, 'ten'), '0123456789');
    const source = opened(join(folder, 'ten'));
    expect(() => source.read(5, 6)).toThrow(RangeError);
    expect(() => source.read(-1, 2)).toThrow(RangeError);
    expect(() => source.read(Number.NaN, 2)).toThrow(RangeError);
    source.close();
    source.close();
    expect(() => source.read(0, 1)).toThrow('closed');
  });

  it('says so when the file has become shorter', () => {
    const path = join(folder, 'shrinks');
    writeFileSync(path, new Uint8Array(100_000));
    const source = opened(path);
    truncateSync(path, 10);
    expect(() => source.read(50_000, 10)).toThrow('shorter');
    source.close();
  });

  it('says what is wrong with a path that cannot be opened', () => {
    expect(issueCode(join(folder, 'absent.wav'))).toBe('file-not-found');
    expect(issueCode(folder)).toBe('not-a-file');
  });

  it('does not wait for a pipe that nobody writes to', () => {
    execFileSync('mkfifo', [join(folder, 'pipe')]);
    expect(issueCode(join(folder, 'pipe'))).toBe('not-a-file');
  });
});
