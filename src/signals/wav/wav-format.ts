// What the parts of the WAV reader tell each other: how samples lie in the file, and what was odd about it.

/** How one frame of sound (a sample of every channel) lies in the file. */
export interface WavFormat {
  /** 1 .. 64 */
  channels: number;
  /** Samples per second and channel, as the file says or as its other fields tell. */
  rateHz: number;
  /** Bytes of one sample, 1 .. 8; smaller samples lie in its upper bits. */
  containerBytes: number;
  /** Bits that carry sound, at most 8 x `containerBytes`. */
  bits: number;
  floatingPoint: boolean;
  bigEndian: boolean;
}

/** Each code states what is odd about a file that could be read all the same. */
export type WavNoteCode =
  | 'size-unknown'
  | 'data-cut-short'
  | 'size-contradicted'
  | 'part-frame'
  | 'bytes-after-data'
  | 'more-data'
  | 'data-before-format'
  | 'no-padding'
  | 'chunk-lost'
  | 'format-repaired'
  | 'sub-format-unfamiliar'
  | 'rate-repaired'
  | 'rate-contradicted'
  | 'rate-implausible';

/** Something odd in a file that was read nevertheless: what it is, and what was made of it. */
export interface WavNote {
  code: WavNoteCode;
  message: string;
  /** Chunk or byte in the file. */
  where?: string;
  /** The numbers behind it. */
  values?: Record<string, number>;
}

/** Bytes of one frame: a sample of every channel. */
export function frameBytes(format: WavFormat): number {
  return format.channels * format.containerBytes;
}
