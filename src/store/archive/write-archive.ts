// A job as one ZIP file, streamed: it may be larger than memory, and its size is known before it starts.
import { createHash } from 'node:crypto';
import { Readable } from 'node:stream';
import { ZipFile } from 'yazl';
import { version } from '../../../package.json';
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { canonicalJson } from '../../job/canonical-json.ts';
import { fileReferences } from '../../job/projections/file-references.ts';
import type { ContentKind } from '../content-store.ts';
import { piecesOf } from '../file-hash.ts';
import { keptTrack } from '../keep-files.ts';
import { keptPhoto } from '../keep-photo.ts';
import { trackSound } from '../track-sound.ts';
import type { Workshop } from '../workshop.ts';
import { archiveReadme } from './archive-readme.ts';
import {
  entriesPath,
  type Manifest,
  manifestPath,
  personalPath,
  photoPath,
  readmePath,
  recordingPath,
  trackPath,
  trackSoundPath,
} from './manifest.ts';

export interface ArchiveOptions {
  /** Whether owner, plate and telephone number go along. */
  personal: boolean;
}

export interface ArchiveStream {
  /** A file name that says which job it is. */
  name: string;
  byteLength: number;
  stream: Readable;
}

interface Part {
  path: string;
  bytes: number;
  sha256: string;
  pieces: () => AsyncIterable<Uint8Array> | Iterable<Uint8Array>;
}

function textPart(path: string, text: string): Part {
  const content = new TextEncoder().encode(text);
  const sha256 = createHash('sha256').update(content).digest('hex');
  return { path, bytes: content.length, sha256, pieces: () => [content] };
}

const lines = (values: readonly unknown[]) => values.map((value) => `${canonicalJson(value)}\n`).join('');

/** The archive of a job as it stands now. What is missing in the store is refused here, before the first byte. */
export async function archiveOf(
  workshop: Workshop,
  job: string,
  { personal }: ArchiveOptions,
): Promise<Result<ArchiveStream>> {
  const { head, chain, journal } = await workshop.load(job);
  if (head.entries === 0) {
    const mend = '"kickpanel job list" shows the jobs.';
    return failure({ code: 'job-unknown', message: 'There is no such job.', where: job, mend });
  }
  const exportedWhen = workshop.now();
  const parts = [
    textPart(readmePath, archiveReadme(journal.state, head, exportedWhen)),
    textPart(entriesPath, lines(chain)),
  ];
  if (personal) parts.push(textPart(personalPath, lines(await workshop.journals.personalRecords(job))));
  const files = await fileParts(workshop, fileReferences(chain));
  if (!files.ok) return files;
  parts.push(...files.value);
  const manifest: Manifest = {
    schema: 'kickpanel.archive/1',
    job,
    name: journal.state.name,
    exportedWhen,
    version,
    head,
    personal: personal ? 'included' : 'left-out',
    files: parts.map(({ path, bytes, sha256 }) => ({ path, bytes, sha256 })),
  };
  const label = (journal.state.number ?? job).replaceAll(/[^A-Za-z0-9._-]+/g, '-');
  const zipped = await zipOf(
    [textPart(manifestPath, `${JSON.stringify(manifest, null, 1)}\n`), ...parts],
    exportedWhen,
  );
  return success({ name: `job-${label}.zip`, ...zipped });
}

async function fileParts(
  { content }: Workshop,
  { recordings, tracks, photos }: ReturnType<typeof fileReferences>,
): Promise<Result<Part[]>> {
  const parts: Part[] = [];
  const issues: Issue[] = [];
  const missing = (what: string, where: string) =>
    issues.push({
      code: `${what}-missing`,
      message: `A ${what} of the job is missing from the data folder.`,
      where,
      mend: 'Import an older archive of the job, or take the folder from a backup, then export again.',
    });
  for (const sha256 of recordings.keys()) {
    const bytes = await content.size('recordings', sha256);
    if (bytes === null) missing('recording', sha256);
    else parts.push({ path: recordingPath(sha256), bytes, sha256, pieces: () => kept(content, 'recordings', sha256) });
  }
  for (const sha256 of tracks.keys()) {
    const bytes = await content.size('tracks', sha256);
    const track = bytes === null ? null : await keptTrack(content, sha256);
    if (bytes === null || track === null) {
      missing('track', sha256);
      continue;
    }
    parts.push({ path: trackPath(sha256), bytes, sha256, pieces: () => kept(content, 'tracks', sha256) });
    const sound = trackSound(track);
    if (sound === null) continue;
    const hash = createHash('sha256');
    for (const piece of sound.pieces()) {
      hash.update(piece);
      await new Promise(setImmediate);
    }
    const { byteLength: soundBytes, pieces } = sound;
    parts.push({ path: trackSoundPath(sha256), bytes: soundBytes, sha256: hash.digest('hex'), pieces });
  }
  for (const sha256 of photos.keys()) {
    const photo = await keptPhoto(content, sha256);
    if (photo === null) missing('photo', sha256);
    else {
      const { bytes, type } = photo;
      parts.push({ path: photoPath(sha256, type), bytes, sha256, pieces: () => kept(content, 'photos', sha256) });
    }
  }
  return issues.length > 0 ? failure(...issues) : success(parts);
}

async function* kept(content: Workshop['content'], kind: ContentKind, sha256: string): AsyncGenerator<Uint8Array> {
  const source = await content.open(kind, sha256);
  if (source === null) throw new Error(`${sha256} went away while it was exported`);
  try {
    yield* piecesOf(source);
  } finally {
    source.close();
  }
}

/** Nothing is compressed: sound hardly gets smaller, and so the size of the whole is known at once. */
async function zipOf(parts: readonly Part[], when: string): Promise<{ byteLength: number; stream: Readable }> {
  const zip = new ZipFile();
  for (const { path, bytes, pieces } of parts) {
    const options = { compress: false, size: bytes, mtime: new Date(when), mode: 0o100644 };
    zip.addReadStreamLazy(path, options, (give) => give(null, Readable.from(pieces())));
  }
  const stream = zip.outputStream as Readable;
  zip.on('error', (error) => stream.destroy(error));
  const byteLength = await new Promise<number>((resolve) => {
    // The library's types leave the size out.
    zip.end(undefined, ((size: number) => resolve(size)) as () => void);
  });
  return { byteLength, stream };
}
