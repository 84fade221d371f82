// An archive taken in: proved whole first, then its files, then its entries in one piece.
import { failure, type Result, success } from '../../base/result.ts';
import type { ChainedEntry } from '../../job/entries.ts';
import { fileReferences } from '../../job/projections/file-references.ts';
import { trackSchema } from '../../signals/track.ts';
import { trackContradictions } from '../../signals/track-contradictions.ts';
import type { FileSource } from '../file-source.ts';
import { keepRecording } from '../keep-files.ts';
import { keepPhoto } from '../keep-photo.ts';
import type { VerifyOptions } from '../verify-job.ts';
import type { Workshop } from '../workshop.ts';
import { takeIn } from '../write-entries.ts';
import { pathsOf, recordingPath, trackPath } from './manifest.ts';
import { type Archive, jsonOrText, openArchive } from './read-archive.ts';
import { verifiedArchive } from './verify-archive.ts';

/** What came in; what was there already does not count. */
export interface Imported {
  job: string;
  appended: number;
  known: number;
  recordings: number;
  tracks: number;
  photos: number;
}

/**
 * Takes in the archive at `path`.
 *
 * A job that is here already gets the entries that it does not have, after its own. Files are kept before the entries that
 * speak of them; if that is interrupted there are files that nothing speaks of, and doing it again finishes it.
 */
export async function importArchive(
  workshop: Workshop,
  path: string,
  options: Pick<VerifyOptions, 'onProgress'> = {},
): Promise<Result<Imported>> {
  const archive = await openArchive(path);
  if (!archive.ok) return archive;
  try {
    const { whole, faults } = await verifiedArchive(archive.value, options);
    if (whole) return await imported(workshop, archive.value);
    const mend = 'Export it again, or use another copy. Nothing of this one was taken in.';
    return failure(
      ...faults.map(({ code, message, where, entry }) => ({ code, message, where: where ?? entry ?? path, mend })),
    );
  } finally {
    archive.value.close();
  }
}

async function imported(workshop: Workshop, archive: Archive): Promise<Result<Imported>> {
  const entries = archive.entries as ChainedEntry[];
  const { job } = archive.manifest;
  const { recordings, tracks, photos } = fileReferences(entries);
  const count: Imported = { job, appended: 0, known: 0, recordings: 0, tracks: 0, photos: 0 };
  for (const sha256 of recordings.keys()) {
    const kept = await keepRecording(workshop.content, await archive.pieces(recordingPath(sha256)), sha256);
    if (!kept.ok) return kept;
    if (kept.value.isNew) count.recordings++;
  }
  for (const sha256 of tracks.keys()) {
    const bytesMax = 2 ** 26;
    const kept = await workshop.content.receive('tracks', await archive.pieces(trackPath(sha256)), {
      bytesMax,
      sha256,
      check: (source) => trackIn(source, sha256),
    });
    if (!kept.ok) return kept;
    if (kept.value.isNew) count.tracks++;
  }
  for (const sha256 of photos.keys()) {
    // The archive is whole, so the photo is there under one of the two.
    const path = pathsOf('photos', sha256).find(archive.has) as string;
    const kept = await keepPhoto(workshop.content, await archive.pieces(path), sha256);
    if (!kept.ok) return kept;
    if (kept.value.isNew) count.photos++;
  }
  const written = await takeIn(workshop, job, entries, archive.records);
  if (!written.ok) return written;
  return success({ ...count, appended: written.value.appended.length, known: written.value.known.length });
}

function trackIn(source: FileSource, where: string): Result<null> {
  const text = new TextDecoder().decode(source.read(0, source.byteLength));
  const track = trackSchema.safeParse(jsonOrText(text));
  if (track.success && trackContradictions(track.data).length === 0) return success(null);
  const mend = 'Export the job again where it came from.';
  return failure({ code: 'track-invalid', message: 'A track description is not one.', where, mend });
}
