// Finding the two chunks that matter, "fmt " and "data", in a file whose other chunks and sizes cannot be trusted.
import type { ByteSource } from '../recording.ts';
import { uint32 } from './bytes.ts';
import { type ChunkHeader, chunkHeaderAt, chunksReachEnd, isChunkName, unknownSize } from './chunk-header.ts';
import type { WavNote } from './wav-format.ts';
import { wideSizes } from './wide-sizes.ts';

/** The kinds of container: RIFF little-endian, RIFX big-endian, RF64 and BW64 with 64-bit sizes aside. */
export type Container = 'RIFF' | 'RIFX' | 'RF64' | 'BW64';

export interface DataChunk {
  /** First byte of sound. */
  at: number;
  /** Bytes of sound that the header promises; absent when it does not say. */
  promisedBytes?: number;
  /** Bytes of sound that are in the file. */
  presentBytes: number;
}

export interface SoundChunks {
  /** The body of "fmt ", at most 64 bytes of it, and the byte it starts at. */
  format?: { at: number; body: Uint8Array };
  data?: DataChunk;
  /** The largest chunk of a name unknown here, for the message when there is no data. */
  largestOther?: { id: string; sizeBytes: number };
  /** Whether the file is exactly as long as its first header says. */
  callsItselfWhole: boolean;
  notes: WavNote[];
}

// Real files hold a dozen chunks. The limits keep a file of nothing but empty chunks, or of rubbish, from costing time.
const chunksMax = 4096;
const formatBytesMax = 64;

/**
 * The "fmt " and "data" chunks of a RIFF family file, as far as its chunk sizes lead to them.
 *
 * Reads headers only, and at most 4096 of them.
 *
 * @param source    begins with the 12 bytes of a RIFF header, whose names are not checked again
 * @param container what those bytes said
 * @returns whichever chunks were found, with what was odd on the way; `presentBytes` never passes the end of the source
 * Source: Multimedia Programming Interface and Data Specifications 1.0 (IBM, Microsoft, 1991); EBU Tech 3306 (RF64);
 * ITU-R BS.2088 (BW64).
 */
export function soundChunks(source: ByteSource, container: Container): SoundChunks {
  const bigEndian = container === 'RIFX';
  const end = source.byteLength;
  const notes: WavNote[] = [];
  const found: SoundChunks = { callsItselfWhole: false, notes };
  let wholeBytes = uint32(source.read(4, 4), 0, bigEndian);
  let sizes = new Map<string, number>();
  let at = 12;
  for (let walked = 0; at + 8 <= end; walked++) {
    const header = chunkHeaderAt(source, at, bigEndian);
    if (!isChunkName(header.id) || walked >= chunksMax) {
      noteLeftOver(found, at, end);
      break;
    }
    if (header.id === 'ds64') {
      const wide = wideSizes(source, header);
      sizes = wide.sizes;
      if (wholeBytes === unknownSize) wholeBytes = wide.wholeBytes;
    } else if (header.sizeBytes === unknownSize || (header.sizeBytes === 0 && header.id === 'data')) {
      header.sizeBytes = sizes.get(header.id) ?? header.sizeBytes;
    }
    if (header.id === 'fmt ') takeFormat(source, header, found);
    else if (header.id === 'data') takeData(source, header, bigEndian, found);
    else if (header.sizeBytes > (found.largestOther?.sizeBytes ?? 0)) {
      found.largestOther = { id: header.id, sizeBytes: header.sizeBytes };
    }
    const next = header.bodyAt + header.sizeBytes;
    const reachesEnd = found.data && found.data.at + found.data.presentBytes === end;
    if (next > end && !reachesEnd) noteLeftOver(found, header.bodyAt - 8, end);
    if (next > end || reachesEnd) break;
    at = next + fillingAfter(source, header, next, bigEndian, notes);
  }
  found.callsItselfWhole = Math.abs(wholeBytes + 8 - end) <= 1;
  return found;
}

/** Enters a "fmt " chunk, the first if there are several. */
export function takeFormat(source: ByteSource, header: ChunkHeader, found: SoundChunks): void {
  if (found.format) return;
  // A size too small to be true is not believed; 14 is that of the oldest form.
  const believedBytes = header.sizeBytes < 14 ? 16 : header.sizeBytes;
  const length = Math.min(believedBytes, formatBytesMax, source.byteLength - header.bodyAt);
  found.format = { at: header.bodyAt, body: source.read(header.bodyAt, length).slice() };
  if (found.data) {
    found.notes.push({
      code: 'data-before-format',
      message: 'The sound stands before its own description.',
      where: `chunk "fmt " at byte ${header.bodyAt - 8}`,
    });
  }
}

/** Enters a "data" chunk, the first with anything in it. */
export function takeData(source: ByteSource, header: ChunkHeader, bigEndian: boolean, found: SoundChunks): void {
  const availableBytes = source.byteLength - header.bodyAt;
  const presentBytes = Math.min(header.sizeBytes, availableBytes);
  if (found.data && found.data.presentBytes > 0) {
    found.notes.push({
      code: 'more-data',
      message: `A second block of sound (${presentBytes} bytes) follows; only the first is read.`,
      where: `chunk "data" at byte ${header.bodyAt - 8}`,
      values: { bytes: presentBytes },
    });
    return;
  }
  // Size 0 is the truth only if the other chunks account for the rest of the file.
  const neverFilledIn =
    header.sizeBytes === 0 && availableBytes > 0 && !chunksReachEnd(source, header.bodyAt, bigEndian);
  found.data =
    neverFilledIn || header.sizeBytes === unknownSize
      ? { at: header.bodyAt, presentBytes: availableBytes }
      : { at: header.bodyAt, promisedBytes: header.sizeBytes, presentBytes };
}

/** Odd chunks are followed by one filling byte; some writers forget it. */
function fillingAfter(
  source: ByteSource,
  header: ChunkHeader,
  next: number,
  bigEndian: boolean,
  notes: WavNote[],
): number {
  if (header.sizeBytes % 2 === 0) return 0;
  if (next + 9 > source.byteLength) return 1;
  const fits = (chunk: ChunkHeader) =>
    isChunkName(chunk.id) && (chunk.bodyAt + chunk.sizeBytes <= source.byteLength || chunk.id === 'data');
  const direct = chunkHeaderAt(source, next, bigEndian);
  if (!fits(direct) || fits(chunkHeaderAt(source, next + 1, bigEndian))) return 1;
  notes.push({
    code: 'no-padding',
    message: `The chunk "${header.id}" has an odd size and no filling byte after it.`,
    where: `byte ${next}`,
  });
  return 0;
}

function noteLeftOver(found: SoundChunks, at: number, end: number): void {
  if (!found.data || at < found.data.at) return;
  found.notes.push({
    code: 'bytes-after-data',
    message: `${end - at} bytes after the sound belong to no chunk and were left aside; if the recording seems too short, its header is wrong.`,
    where: `byte ${at}`,
    values: { bytes: end - at },
  });
}
