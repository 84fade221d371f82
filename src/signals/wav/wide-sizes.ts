// The "ds64" chunk of RF64 and BW64: sizes that do not fit into 32 bits.
import type { ByteSource } from '../recording.ts';
import { latinText, uint32, uint64 } from './bytes.ts';
import type { ChunkHeader } from './chunk-header.ts';

const entryBytes = 12;
const entriesMax = 64;

/**
 * Reads a "ds64" chunk.
 *
 * @returns size of the whole file after its first 8 bytes (0 when not told), and the sizes told per chunk name;
 * nothing is believed here, the caller holds them against the file
 * Source: EBU Tech 3306 (2009), 2.
 */
export function wideSizes(source: ByteSource, header: ChunkHeader): { wholeBytes: number; sizes: Map<string, number> } {
  const sizes = new Map<string, number>();
  const length = Math.min(header.sizeBytes, 28 + entryBytes * entriesMax, source.byteLength - header.bodyAt);
  if (length < 16) return { wholeBytes: 0, sizes };
  const body = source.read(header.bodyAt, length);
  sizes.set('data', uint64(body, 8));
  const entries = length >= 28 ? uint32(body, 24, false) : 0;
  for (let at = 28, left = entries; left > 0 && at + entryBytes <= length; at += entryBytes, left--) {
    const id = latinText(body, at, 4);
    if (id !== 'data') sizes.set(id, uint64(body, at + 4));
  }
  return { wholeBytes: uint64(body, 0), sizes };
}
