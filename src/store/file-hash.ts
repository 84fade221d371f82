// What a source holds, piece by piece, and its hash.
import { createHash } from 'node:crypto';
import { setImmediate } from 'node:timers/promises';
import type { FileSource } from './file-source.ts';

const pieceBytes = 1 << 18;

/** The bytes from `from` up to but not with `to`, in pieces of their own; others get their turn in between. */
export async function* piecesOf(source: FileSource, from = 0, to = source.byteLength): AsyncGenerator<Uint8Array> {
  for (let at = from; at < to; at += pieceBytes) {
    yield source.read(at, Math.min(pieceBytes, to - at)).slice();
    await setImmediate();
  }
}

/** SHA-256 of everything in a source. */
export async function hashOf(source: FileSource): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of piecesOf(source)) hash.update(piece);
  return hash.digest('hex');
}
