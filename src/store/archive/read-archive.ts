// An archive opened: its manifest, its journal, and its files by path. Nothing of it is believed yet.
import { createHash } from 'node:crypto';
import type { Readable } from 'node:stream';
import { openPromise, type Entry as ZipEntry, type ZipFile } from 'yauzl';
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import type { PersonalRecord } from '../../job/personal.ts';
import { personalRecordSchema } from '../../job/personal.ts';
import { entriesPath, type Manifest, manifestPath, manifestSchema, personalPath } from './manifest.ts';

/** Text files of an archive are read whole; one that is larger was not made by us. */
const textBytesMax = 2 ** 28;
const filesMax = 100_000;

export interface Archive {
  manifest: Manifest;
  /** One value a line, as it stands there; text where it is no JSON. */
  entries: unknown[];
  records: PersonalRecord[];
  has: (path: string) => boolean;
  /** The content of a file that is there. */
  pieces: (path: string) => Promise<Readable>;
  /** SHA-256 of a file, or null where there is none. */
  hashOf: (path: string) => Promise<string | null>;
  close: () => void;
}

function unreadable(path: string, message: string): Issue {
  return { code: 'archive-unreadable', message, where: path, mend: 'Give a ZIP file that "job export" wrote, whole.' };
}

/** Opens the ZIP file at `path`. Whoever gets the archive closes it. */
export async function openArchive(path: string): Promise<Result<Archive>> {
  let zip: ZipFile;
  const files = new Map<string, ZipEntry>();
  try {
    zip = await openPromise(path, { autoClose: false });
  } catch (error) {
    if (typeof (error as NodeJS.ErrnoException).code === 'string') throw error;
    return failure(unreadable(path, `This is no whole ZIP file (${(error as Error).message}).`));
  }
  try {
    for await (const entry of zip.eachEntry()) {
      if (files.size >= filesMax) return closed(zip, unreadable(path, `It holds more than ${filesMax} files.`));
      if (!files.has(entry.fileName)) files.set(entry.fileName, entry);
    }
    return await contentOf(zip, files, path);
  } catch (error) {
    return closed(zip, unreadable(path, `It cannot be read (${(error as Error).message}).`));
  }
}

function closed(zip: ZipFile, issue: Issue): Result<never> {
  zip.close();
  return failure(issue);
}

async function contentOf(zip: ZipFile, files: Map<string, ZipEntry>, path: string): Promise<Result<Archive>> {
  const pieces = (name: string): Promise<Readable> => zip.openReadStreamPromise(files.get(name) as ZipEntry);
  const text = async (name: string): Promise<string | null> => {
    const entry = files.get(name);
    if (entry === undefined) return null;
    if (entry.uncompressedSize > textBytesMax) throw new Error(`${name} is larger than any that we write`);
    const parts: Buffer[] = [];
    for await (const piece of await pieces(name)) parts.push(piece as Buffer);
    return Buffer.concat(parts).toString('utf8');
  };
  const manifestText = await text(manifestPath);
  if (manifestText === null) return closed(zip, unreadable(path, `It is no job: ${manifestPath} is missing.`));
  const manifest = manifestSchema.safeParse(jsonOrText(manifestText));
  if (!manifest.success) {
    const { path: field, message } = manifest.error.issues[0];
    return closed(zip, unreadable(path, `${manifestPath} is not as we write it: ${field.join('.')} ${message}`));
  }
  const entries = linesOf((await text(entriesPath)) ?? '');
  const records = linesOf((await text(personalPath)) ?? '').flatMap((line) => {
    const parsed = personalRecordSchema.safeParse(line);
    return parsed.success ? [parsed.data] : [];
  });
  return success({
    manifest: manifest.data,
    entries,
    records,
    has: (name) => files.has(name),
    pieces,
    async hashOf(name) {
      if (!files.has(name)) return null;
      const hash = createHash('sha256');
      for await (const piece of await pieces(name)) hash.update(piece as Buffer);
      return hash.digest('hex');
    },
    close: () => zip.close(),
  });
}

/** What JSON text says; the text itself where it is none. */
export function jsonOrText(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

function linesOf(text: string): unknown[] {
  return text
    .split('\n')
    .filter((line) => line !== '')
    .map(jsonOrText);
}
