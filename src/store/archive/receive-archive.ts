// An archive that arrives piece by piece: it needs to be a file before it can be read, and only as long.
import { randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { asStoreFailure } from '../failure.ts';
import { incomingFolder } from '../folder-content-store.ts';

/** Writes the pieces to a file in the data folder, works on it, and takes it away again. */
export async function withReceivedArchive<Value>(
  dataFolder: string,
  pieces: AsyncIterable<Uint8Array>,
  work: (path: string) => Promise<Value>,
): Promise<Value> {
  const path = join(dataFolder, incomingFolder, `${process.pid}-${randomUUID()}.zip`);
  try {
    await pipeline(Readable.from(pieces, { objectMode: false }), createWriteStream(path, { flags: 'wx' }));
    return await work(path);
  } catch (error) {
    throw asStoreFailure(error, dataFolder);
  } finally {
    await rm(path, { force: true }).catch(() => {});
  }
}
