// Text out of bytes whose writer did not say how it is coded.

/**
 * The text of a small file: UTF-8 or UTF-16, by its mark or by its look; else one character a byte, which never fails.
 *
 * @returns without the byte order mark
 */
export function textFromBytes(bytes: Uint8Array): string {
  const mark = bytes.length >= 2 ? bytes[0] * 256 + bytes[1] : 0;
  if (mark === 0xfffe || looksWide(bytes, 1)) return decoded(bytes, 'utf-16le');
  if (mark === 0xfeff || looksWide(bytes, 0)) return decoded(bytes, 'utf-16be');
  try {
    return decoded(bytes, 'utf-8');
  } catch {
    return decoded(bytes, 'windows-1252');
  }
}

function decoded(bytes: Uint8Array, encoding: string): string {
  return new TextDecoder(encoding, { fatal: encoding === 'utf-8' }).decode(bytes);
}

/** Whether nearly every other byte, from `first`, is zero and hardly any of those between: Latin text two bytes wide. */
function looksWide(bytes: Uint8Array, first: number): boolean {
  const length = Math.min(bytes.length, 512) & ~1;
  let zeros = 0;
  let othersZero = 0;
  for (let i = 0; i < length; i++) {
    if (bytes[i] !== 0) continue;
    if (i % 2 === first) zeros++;
    else othersZero++;
  }
  return length >= 4 && zeros > 0.45 * length && othersZero === 0;
}
