// Numbers and four-letter names out of raw bytes.

/** Unsigned 16-bit number at `at`. */
export function uint16(bytes: Uint8Array, at: number, bigEndian: boolean): number {
  return bigEndian ? bytes[at] * 256 + bytes[at + 1] : bytes[at] + bytes[at + 1] * 256;
}

/** Unsigned 32-bit number at `at`. */
export function uint32(bytes: Uint8Array, at: number, bigEndian: boolean): number {
  const first = uint16(bytes, at, bigEndian);
  const second = uint16(bytes, at + 2, bigEndian);
  return bigEndian ? first * 65536 + second : first + second * 65536;
}

/** Unsigned little-endian 64-bit number at `at`, rounded to a double above 2^53. */
export function uint64(bytes: Uint8Array, at: number): number {
  return uint32(bytes, at, false) + uint32(bytes, at + 4, false) * 4294967296;
}

/** `length` bytes as text, one character a byte. */
export function latinText(bytes: Uint8Array, at: number, length: number): string {
  let text = '';
  for (let i = at; i < Math.min(at + length, bytes.length); i++) text += String.fromCharCode(bytes[i]);
  return text;
}
