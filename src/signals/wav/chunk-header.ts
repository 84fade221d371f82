// One chunk of a RIFF file: four letters, a size, a body.
import type { ByteSource } from '../recording.ts';
import { latinText, uint32 } from './bytes.ts';

export interface ChunkHeader {
  id: string;
  /** First byte of the body. */
  bodyAt: number;
  sizeBytes: number;
}

/** The size that means "not known" or, in RF64, "see the 64-bit sizes". */
export const unknownSize = 0xffffffff;

/** The 8 bytes at `at` as a chunk header; they lie within the source. */
export function chunkHeaderAt(source: ByteSource, at: number, bigEndian: boolean): ChunkHeader {
  const bytes = source.read(at, 8);
  return { id: latinText(bytes, 0, 4), bodyAt: at + 8, sizeBytes: uint32(bytes, 4, bigEndian) };
}

/** Chunk names are four printable characters; anything else means that the walk has gone astray. */
export function isChunkName(id: string): boolean {
  return /^[ -~]{4}$/.test(id);
}

/** Whether chunk after chunk leads from `at` exactly to the end of the source. */
export function chunksReachEnd(source: ByteSource, at: number, bigEndian: boolean): boolean {
  const end = source.byteLength;
  for (let walked = 0; walked < 64 && at + 8 <= end; walked++) {
    const header = chunkHeaderAt(source, at, bigEndian);
    if (!isChunkName(header.id)) return false;
    at = header.bodyAt + header.sizeBytes + (header.sizeBytes % 2);
    if (at === end || at === end + 1) return true;
  }
  return false;
}
