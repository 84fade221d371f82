// ZIP files taken apart and put together again, as somebody would who meddles with an archive.
import { createWriteStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import { openPromise } from 'yauzl';
import { ZipFile } from 'yazl';
import { archiveOf } from '../../src/store/archive/write-archive.ts';
import type { Workshop } from '../../src/store/workshop.ts';

/** Writes the archive of a job to `path`. */
export async function exportTo(workshop: Workshop, job: string, path: string, personal = true): Promise<string> {
  const archive = await archiveOf(workshop, job, { personal });
  if (!archive.ok) throw new Error(archive.issues[0].message);
  await pipeline(archive.value.stream, createWriteStream(path));
  return path;
}

/** Every file in a ZIP, in its order. */
export async function filesIn(path: string): Promise<Map<string, Buffer>> {
  const zip = await openPromise(path);
  const files = new Map<string, Buffer>();
  for await (const entry of zip.eachEntry()) {
    const parts: Buffer[] = [];
    for await (const part of await zip.openReadStreamPromise(entry)) parts.push(part as Buffer);
    files.set(entry.fileName, Buffer.concat(parts));
  }
  return files;
}

/** A ZIP of these files, compressed, as another program would write it. */
export async function zipOf(files: Map<string, Buffer>, path: string, forceZip64Format = false): Promise<string> {
  const zip = new ZipFile();
  for (const [name, content] of files) zip.addBuffer(content, name, { compress: true, forceZip64Format });
  zip.end({ forceZip64Format, comment: '' });
  await pipeline(zip.outputStream, createWriteStream(path));
  return path;
}
