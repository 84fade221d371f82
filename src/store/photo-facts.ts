// What a picture file is, by its bytes and never by its name: a whole JPEG or PNG, and nothing else. Neither can hold what a
// browser would run; drawings and pages in markup can, and are refused like everything that is no photo.
import { failure, type Issue, type Result, success } from '../base/result.ts';
import type { PhotoType } from '../job/entry-kinds.ts';
import type { ByteSource } from '../signals/recording.ts';

export interface PhotoFacts {
  type: PhotoType;
  widthPx: number;
  heightPx: number;
}

/** More than any camera takes; a picture of more would only be made to fill a memory. */
const pixelsMax = 250e6;

const mends = {
  'not-a-photo': 'Give a photo as JPEG or PNG.',
  'photo-cut-short': 'Send it again; if that does not help, take it again.',
  'photo-too-large': 'Photograph it with fewer megapixels.',
} as const;

const refused = (code: keyof typeof mends, message: string, mend: string = mends[code]): Result<never> =>
  failure({ code, message, mend } satisfies Issue);

const cutShort = (): Result<never> => refused('photo-cut-short', 'The photo breaks off before its end.');

const startsWith = (head: Uint8Array, ...bytes: number[]) => bytes.every((byte, n) => head[n] === byte);

/**
 * Type and size of the picture that a file holds.
 *
 * Refused are `not-a-photo` (neither JPEG nor PNG), `photo-cut-short` (no end mark) and `photo-too-large` (over 250
 * megapixels). What follows the end mark, as telephones write it, is left alone.
 *
 * Source: ITU-T T.81, annex B (markers); ISO/IEC 15948, sections 5 and 11 (chunks).
 */
export function photoFacts(source: ByteSource): Result<PhotoFacts> {
  const head = source.read(0, Math.min(12, source.byteLength)).slice();
  const read = startsWith(head, 0xff, 0xd8, 0xff)
    ? jpegSize(source)
    : startsWith(head, 0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)
      ? pngSize(source)
      : null;
  if (read === null) {
    // "ftyp": the container in which some telephones keep their pictures unless they are told otherwise.
    const container = startsWith(head.subarray(4), 0x66, 0x74, 0x79, 0x70);
    const mend = container ? 'Set the camera to JPEG ("most compatible") and take it again.' : mends['not-a-photo'];
    return refused('not-a-photo', 'This is neither JPEG nor PNG.', mend);
  }
  if (!read.ok) return read;
  const { widthPx, heightPx } = read.value;
  if (widthPx * heightPx > pixelsMax) {
    return refused('photo-too-large', `The photo has ${widthPx} x ${heightPx} points, more than is taken.`);
  }
  return read;
}

/** Two bytes, the high one first; null behind the end. */
function word(source: ByteSource, at: number): number | null {
  if (at + 2 > source.byteLength) return null;
  const [high, low] = source.read(at, 2);
  return high * 256 + low;
}

/** Where the next marker stands after coded data, in which FF 00 and FF D0 to D7 are no markers; null if none comes. */
function markerAfter(source: ByteSource, from: number): number | null {
  const stepBytes = 1 << 16;
  for (let at = from; at + 1 < source.byteLength; at += stepBytes) {
    // One byte more than a step, so that a marker across two steps is seen.
    const piece = source.read(at, Math.min(stepBytes + 1, source.byteLength - at));
    for (let n = piece.indexOf(0xff); n >= 0 && n + 1 < piece.length; n = piece.indexOf(0xff, n + 1)) {
      const next = piece[n + 1];
      if (next !== 0 && next !== 0xff && (next < 0xd0 || next > 0xd7)) return at + n;
    }
  }
  return null;
}

const isFrame = (marker: number) => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);

function jpegSize(source: ByteSource): Result<PhotoFacts> {
  let size: PhotoFacts | null = null;
  let scans = 0;
  for (let at = 2; ; ) {
    const mark = word(source, at);
    if (mark === null) return cutShort();
    if (mark >> 8 !== 0xff) return refused('not-a-photo', 'This begins as a JPEG and does not go on as one.');
    const marker = mark & 0xff;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === 0xd9) break;
    const length = word(source, at + 2);
    if (length === null || at + 2 + length > source.byteLength) return cutShort();
    if (length < 2) return refused('not-a-photo', 'This begins as a JPEG and does not go on as one.');
    if (isFrame(marker)) {
      const [heightPx, widthPx] = [word(source, at + 5), word(source, at + 7)];
      if (length < 8 || !heightPx || !widthPx) return refused('not-a-photo', 'The size of the picture is not told.');
      size ??= { type: 'jpeg', widthPx, heightPx };
    }
    at += 2 + length;
    if (marker !== 0xda) continue;
    scans++;
    const next = markerAfter(source, at);
    if (next === null) return cutShort();
    at = next;
  }
  return size === null || scans === 0 ? refused('not-a-photo', 'This JPEG holds no picture.') : success(size);
}

function pngSize(source: ByteSource): Result<PhotoFacts> {
  let size: PhotoFacts | null = null;
  let hasPicture = false;
  for (let at = 8; ; ) {
    if (at + 12 > source.byteLength) return cutShort();
    const bytes = source.read(at, 8).slice();
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const length = view.getUint32(0);
    const name = String.fromCharCode(...bytes.subarray(4));
    if (size === null) {
      if (name !== 'IHDR' || length !== 13) return refused('not-a-photo', 'The size of the picture is not told.');
      if (at + 25 > source.byteLength) return cutShort();
      const field = source.read(at + 8, 8).slice();
      const fields = new DataView(field.buffer, field.byteOffset, field.byteLength);
      const [widthPx, heightPx] = [fields.getUint32(0), fields.getUint32(4)];
      if (widthPx === 0 || heightPx === 0) return refused('not-a-photo', 'The size of the picture is not told.');
      size = { type: 'png', widthPx, heightPx };
    }
    hasPicture ||= name === 'IDAT';
    at += 12 + length;
    if (at > source.byteLength) return cutShort();
    if (name === 'IEND') break;
  }
  return hasPicture ? success(size) : refused('not-a-photo', 'This PNG holds no picture.');
}
