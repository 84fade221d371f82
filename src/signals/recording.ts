// A recording as the readers see it: samples on demand, so that ten minutes need not fit into memory.

/** Where the bytes of a file come from: memory, a file handle in node, a blob in a worker. Reads are synchronous. */
export interface ByteSource {
  readonly byteLength: number;
  /** Exactly `length` bytes from `offset`; both inside the source. The caller may keep what it gets only until the next read. */
  read(offset: number, length: number): Uint8Array;
}

/** Decoded sound with random access. */
export interface Recording {
  /** Samples per second as the file says. */
  readonly rateHz: number;
  readonly channels: number;
  /** Samples per channel. */
  readonly frames: number;
  /** Size of one quantisation step re full scale (2^-15 for 16 bit); 0 for floating point. */
  readonly stepSize: number;
  /** Bits that carry sound (16, 24, 32 ...), for the person. */
  readonly bits: number;
  readonly floatingPoint: boolean;
  /**
   * Samples `start` .. `start + length - 1` of one channel, full scale = 1, into `out` (from index 0).
   * Positions outside the recording read as 0, and so do values that are not finite.
   */
  readChannel(channel: number, start: number, length: number, out: Float64Array): void;
  /** How many of those samples are no numbers; absent where a format has none. */
  notFinite?(channel: number, start: number, length: number): number;
}

/** A recording made of arrays in memory, one a channel. */
export function recordingFromArrays(channels: ArrayLike<number>[], rateHz: number, stepSize = 0): Recording {
  const frames = channels[0]?.length ?? 0;
  return {
    rateHz,
    channels: channels.length,
    frames,
    stepSize,
    bits: stepSize > 0 ? Math.round(1 - Math.log2(stepSize)) : 32,
    floatingPoint: stepSize === 0,
    readChannel(channel, start, length, out) {
      const source = channels[channel];
      for (let i = 0; i < length; i++) {
        const at = start + i;
        const value = at >= 0 && at < frames ? source[at] : 0;
        out[i] = Number.isFinite(value) ? value : 0;
      }
    },
  };
}

/** Bytes already in memory as a source. */
export function byteSourceFromArray(bytes: Uint8Array): ByteSource {
  return {
    byteLength: bytes.byteLength,
    read: (offset, length) => bytes.subarray(offset, offset + length),
  };
}
