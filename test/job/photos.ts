// Photos for tests, put together here: evenly grey pictures of any size, which every viewer opens.
import { crc32, deflateSync } from 'node:zlib';

const word = (value: number) => [value >> 8, value & 0xff];
const segment = (marker: number, ...data: number[]) => [0xff, marker, ...word(data.length + 2), ...data];

/** Coded data of so many blocks whose every code is the one bit 0, filled up with ones. */
function zeroBits(bits: number): number[] {
  const bytes = new Array(Math.ceil(bits / 8)).fill(0);
  if (bits % 8 > 0) bytes[bytes.length - 1] = 0xff >> (bits % 8);
  return bytes;
}

export interface JpegForm {
  widthPx?: number;
  heightPx?: number;
  /** Two scans, one for the mean of each block and one for the rest. */
  progressive?: boolean;
  /** Bytes of comment. */
  longer?: number;
}

/** A grey JPEG, of its own for each seed. Tables of one code each: "no difference" and "nothing more in this block". */
export function jpegPhoto(seed: number | string, form: JpegForm = {}): Buffer {
  const { widthPx = 12, heightPx = 9, progressive = false, longer = 0 } = form;
  const blocks = Math.ceil(widthPx / 8) * Math.ceil(heightPx / 8);
  const counts = [1, ...new Array(15).fill(0)];
  const scan = (from: number, to: number) => segment(0xda, 1, 1, 0, from, to, 0);
  const scans = progressive
    ? [...scan(0, 0), ...zeroBits(blocks), ...scan(1, 63), ...zeroBits(blocks)]
    : [...scan(0, 63), ...zeroBits(2 * blocks)];
  return Buffer.from([
    0xff,
    0xd8,
    ...segment(0xfe, ...Buffer.alloc(Buffer.byteLength(`${seed}`) + longer, `${seed}`)),
    ...segment(0xdb, 0, ...new Array(64).fill(1)),
    ...segment(progressive ? 0xc2 : 0xc0, 8, ...word(heightPx), ...word(widthPx), 1, 1, 0x11, 0),
    ...segment(0xc4, 0x00, ...counts, 0),
    ...segment(0xc4, 0x10, ...counts, 0),
    ...scans,
    0xff,
    0xd9,
  ]);
}

function chunk(name: string, data: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(crc32(named));
  return Buffer.concat([length, named, check]);
}

/** A black PNG of 8 bits; its points are those of 1000 x 1000 at most, whatever it says. */
export function pngPhoto(widthPx = 3, heightPx = 2, picture = true): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(widthPx);
  header.writeUInt32BE(heightPx, 4);
  header[8] = 8;
  const points = Buffer.alloc(Math.min(widthPx + 1, 1000) * Math.min(heightPx, 1000));
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    ...(picture ? [chunk('IDAT', deflateSync(points))] : []),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}
