// A file as an answer: whole, or the part that was asked for.
import { Readable } from 'node:stream';
import { piecesOf } from '../store/file-hash.ts';
import type { FileSource } from '../store/file-source.ts';

interface Range {
  from: number;
  /** Exclusive. */
  to: number;
}

/**
 * The one range that a Range header asks for; null where the whole is to be sent, 'none' where no such part exists.
 *
 * Several ranges at once are answered with the whole, as the standard allows.
 *
 * Source: RFC 9110, section 14.
 */
export function rangeOf(header: string | undefined, byteLength: number): Range | null | 'none' {
  const asked = /^bytes=(\d*)-(\d*)$/.exec(header?.trim() ?? '');
  if (asked === null || (asked[1] === '' && asked[2] === '')) return null;
  if (asked[1] === '') {
    const length = Math.min(Number(asked[2]), byteLength);
    return length === 0 ? 'none' : { from: byteLength - length, to: byteLength };
  }
  const from = Number(asked[1]);
  const to = asked[2] === '' ? byteLength : Math.min(Number(asked[2]) + 1, byteLength);
  if (asked[2] !== '' && Number(asked[2]) < from) return null;
  return from >= byteLength ? 'none' : { from, to };
}

/** Sends `source`, which is closed when it has gone or the caller has. */
export function fileAnswer(request: Request, source: FileSource, type: string, extra: Record<string, string> = {}) {
  const { byteLength } = source;
  const range = rangeOf(request.headers.get('range') ?? undefined, byteLength);
  const headers: Record<string, string> = { 'content-type': type, 'accept-ranges': 'bytes', ...extra };
  if (range === 'none') {
    source.close();
    return new Response(null, { status: 416, headers: { ...headers, 'content-range': `bytes */${byteLength}` } });
  }
  const { from, to } = range ?? { from: 0, to: byteLength };
  headers['content-length'] = String(to - from);
  if (range !== null) headers['content-range'] = `bytes ${from}-${to - 1}/${byteLength}`;
  const status = range === null ? 200 : 206;
  if (request.method === 'HEAD') {
    source.close();
    return new Response(null, { status, headers });
  }
  return new Response(bodyOf(source, from, to), { status, headers });
}

function bodyOf(source: FileSource, from: number, to: number): ReadableStream {
  const stream = Readable.from(piecesOf(source, from, to), { objectMode: false });
  stream.on('close', () => source.close());
  return Readable.toWeb(stream) as ReadableStream;
}
