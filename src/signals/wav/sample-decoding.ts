// Samples out of bytes. One plain loop a format: this is where a long recording spends its time.

/**
 * Decodes `count` samples that lie `strideBytes` apart, the first at `position`, into `out` from `outStart`;
 * full scale = 1.
 */
export type SampleDecoder = (
  bytes: Uint8Array,
  position: number,
  strideBytes: number,
  count: number,
  out: Float64Array,
  outStart: number,
) => void;

export interface SampleEncoding {
  /** 1 .. 8; floats 4 or 8. */
  containerBytes: number;
  floatingPoint: boolean;
  bigEndian: boolean;
}

/** Beyond this a float is no sound but rubbish: twice the range of 32-bit numbers that someone forgot to scale. */
export const soundMax = 4294967296;

/**
 * The decoder for an encoding.
 *
 * Whole numbers are signed, full scale 2^(8 containerBytes - 1), except single bytes, where 128 is zero. Smaller
 * samples lie in the upper bits of their container and so need no care. Floats that are not finite, or beyond
 * `soundMax`, decode as 0.
 */
export function sampleDecoder(encoding: SampleEncoding): SampleDecoder {
  const { containerBytes, bigEndian } = encoding;
  if (encoding.floatingPoint) return containerBytes === 4 ? float32Decoder(!bigEndian) : float64Decoder(!bigEndian);
  if (containerBytes === 1) return decodeUint8;
  if (containerBytes === 2) return int16Decoder(bigEndian);
  if (containerBytes === 3) return int24Decoder(bigEndian);
  if (containerBytes === 4) return int32Decoder(bigEndian);
  return wideDecoder(containerBytes, bigEndian);
}

const decodeUint8: SampleDecoder = (bytes, position, strideBytes, count, out, outStart) => {
  for (let i = 0, p = position; i < count; i++, p += strideBytes) out[outStart + i] = (bytes[p] - 128) / 128;
};

// The sample is put into the top of a 32-bit number, which gives it its sign; the scale undoes that.
const scale = 2 ** -31;

function int16Decoder(bigEndian: boolean): SampleDecoder {
  const high = bigEndian ? 0 : 1;
  const low = 1 - high;
  return (bytes, position, strideBytes, count, out, outStart) => {
    for (let i = 0, p = position; i < count; i++, p += strideBytes) {
      out[outStart + i] = ((bytes[p + high] << 24) | (bytes[p + low] << 16)) * scale;
    }
  };
}

function int24Decoder(bigEndian: boolean): SampleDecoder {
  const high = bigEndian ? 0 : 2;
  const low = 2 - high;
  return (bytes, position, strideBytes, count, out, outStart) => {
    for (let i = 0, p = position; i < count; i++, p += strideBytes) {
      out[outStart + i] = ((bytes[p + high] << 24) | (bytes[p + 1] << 16) | (bytes[p + low] << 8)) * scale;
    }
  };
}

function int32Decoder(bigEndian: boolean): SampleDecoder {
  const [a, b, c, d] = bigEndian ? [0, 1, 2, 3] : [3, 2, 1, 0];
  return (bytes, position, strideBytes, count, out, outStart) => {
    for (let i = 0, p = position; i < count; i++, p += strideBytes) {
      out[outStart + i] = ((bytes[p + a] << 24) | (bytes[p + b] << 16) | (bytes[p + c] << 8) | bytes[p + d]) * scale;
    }
  };
}

/** 40 to 64 bits: nobody records so, and it only has to be right. */
function wideDecoder(containerBytes: number, bigEndian: boolean): SampleDecoder {
  const top = bigEndian ? 0 : containerBytes - 1;
  const down = bigEndian ? 1 : -1;
  return (bytes, position, strideBytes, count, out, outStart) => {
    for (let i = 0, p = position + top; i < count; i++, p += strideBytes) {
      let high = 0;
      for (let k = 0; k < 4; k++) high = (high << 8) | bytes[p + down * k];
      let low = 0;
      for (let k = containerBytes - 1; k >= 4; k--) low = (low + bytes[p + down * k]) / 256;
      out[outStart + i] = (high + low) * scale;
    }
  };
}

function float32Decoder(littleEndian: boolean): SampleDecoder {
  return (bytes, position, strideBytes, count, out, outStart) => {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    for (let i = 0, p = position; i < count; i++, p += strideBytes) {
      const value = view.getFloat32(p, littleEndian);
      out[outStart + i] = value <= soundMax && value >= -soundMax ? value : 0;
    }
  };
}

function float64Decoder(littleEndian: boolean): SampleDecoder {
  return (bytes, position, strideBytes, count, out, outStart) => {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    for (let i = 0, p = position; i < count; i++, p += strideBytes) {
      const value = view.getFloat64(p, littleEndian);
      out[outStart + i] = value <= soundMax && value >= -soundMax ? value : 0;
    }
  };
}

/** How many of `count` floats laid out as for a decoder are no sound: not finite, or beyond `soundMax`. */
export function rubbishFloats(
  encoding: SampleEncoding,
  bytes: Uint8Array,
  position: number,
  strideBytes: number,
  count: number,
): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const littleEndian = !encoding.bigEndian;
  let rubbish = 0;
  for (let i = 0, p = position; i < count; i++, p += strideBytes) {
    const value = encoding.containerBytes === 4 ? view.getFloat32(p, littleEndian) : view.getFloat64(p, littleEndian);
    if (!(value <= soundMax && value >= -soundMax)) rubbish++;
  }
  return rubbish;
}
