// WAV files put together chunk by chunk, right or wrong as a test wants them.
import type { ByteSource } from '../../src/signals/recording.ts';

/** Bytes of text, one a character. */
export function text(letters: string): Uint8Array {
  return Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
}

export function number16(value: number): Uint8Array {
  return Uint8Array.of(value & 255, (value >> 8) & 255);
}

export function number32(value: number): Uint8Array {
  return Uint8Array.from([0, 8, 16, 24], (shift) => (value >>> shift) & 255);
}

export function number64(value: bigint): Uint8Array {
  return joined(number32(Number(value & 0xffffffffn)), number32(Number(value >> 32n)));
}

export function joined(...parts: Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** A chunk; `size` lies when given. */
export function chunk(id: string, body: Uint8Array, size = body.length, filling = true): Uint8Array {
  return joined(text(id), number32(size), body, new Uint8Array(filling ? body.length % 2 : 0));
}

export interface FormatFields {
  tag?: number;
  channels?: number;
  rateHz?: number;
  bytesPerSecond?: number;
  frameBytes?: number;
  bits?: number;
}

/** The 16 bytes of a plain format chunk: 16-bit mono at 48 kHz unless told otherwise. */
export function formatBody(fields: FormatFields = {}): Uint8Array {
  const { tag = 1, channels = 1, rateHz = 48000, bits = 16 } = fields;
  const frameBytes = fields.frameBytes ?? channels * Math.ceil(bits / 8);
  return joined(
    number16(tag),
    number16(channels),
    number32(rateHz),
    number32(fields.bytesPerSecond ?? rateHz * frameBytes),
    number16(frameBytes),
    number16(bits),
  );
}

/** Chunks in a RIFF wrapping; `size` lies when given. */
export function riff(chunks: Uint8Array[], size?: number, id = 'RIFF'): Uint8Array {
  const body = joined(text('WAVE'), ...chunks);
  return joined(text(id), number32(size ?? body.length), body);
}

/** 16-bit samples 1, 2, 3 ... as bytes: any that is lost or doubled shows. */
export function counting(samples: number): Uint8Array {
  const bytes = new Uint8Array(2 * samples);
  for (let i = 0; i < samples; i++) bytes.set(number16(i + 1), 2 * i);
  return bytes;
}

/** A source that keeps count of what is asked of it. */
export function watched(bytes: Uint8Array): ByteSource & { readBytes: number; largestRead: number; reads: number } {
  const source = {
    byteLength: bytes.length,
    readBytes: 0,
    largestRead: 0,
    reads: 0,
    read(offset: number, length: number) {
      if (!(Number.isInteger(offset) && offset >= 0 && length >= 0 && offset + length <= bytes.length)) {
        throw new RangeError(`read ${offset} + ${length} of ${bytes.length}`);
      }
      source.reads++;
      source.readBytes += length;
      source.largestRead = Math.max(source.largestRead, length);
      return bytes.subarray(offset, offset + length);
    },
  };
  return source;
}
