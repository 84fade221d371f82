// When a wrong size has led the walk astray, the names themselves still stand in the file.
import type { ByteSource } from '../recording.ts';
import { latinText, uint32 } from './bytes.ts';
import { type ChunkHeader, unknownSize } from './chunk-header.ts';
import { type SoundChunks, takeData, takeFormat } from './chunks.ts';

const searchBytes = 1 << 20;

/**
 * Adds to `found` the "fmt " and "data" chunks that are missing, where one stands in the first MiB of the file and what
 * follows its name makes sense.
 *
 * A size makes sense if the file can hold it. The search ends where sound begins: a name in there is chance.
 */
export function searchChunks(source: ByteSource, bigEndian: boolean, found: SoundChunks): void {
  const length = Math.min(source.byteLength, searchBytes);
  const bytes = source.read(0, length).slice();
  const soundAt = () => (found.data && found.data.presentBytes > 0 ? found.data.at : length);
  for (let at = 12; at + 8 <= length && at < soundAt(); at++) {
    // 'd' and 'f' first: the strings are made for few places only.
    if (bytes[at] !== 0x64 && bytes[at] !== 0x66) continue;
    const id = latinText(bytes, at, 4);
    const header: ChunkHeader = { id, bodyAt: at + 8, sizeBytes: uint32(bytes, at + 4, bigEndian) };
    const fits = header.bodyAt + header.sizeBytes <= source.byteLength;
    if (id === 'fmt ' && !found.format && fits) {
      takeFormat(source, header, found);
    } else if (id === 'data' && !found.data && (fits || header.sizeBytes === unknownSize)) {
      takeData(source, header, bigEndian, found);
    } else continue;
    found.notes.push({
      code: 'chunk-lost',
      message: `A chunk's size is wrong, so the chunk "${id}" had to be searched for.`,
      where: `chunk "${id}" at byte ${at}`,
    });
  }
}
