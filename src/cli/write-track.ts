// A track and its description on disk: both there, or neither.
import { closeSync, fsyncSync, mkdtempSync, openSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { assert } from '../base/assert.ts';
import { failure, type Result, success } from '../base/result.ts';
import { type TrackDescription, trackSchema } from '../signals/track.ts';
import { trackAudio } from '../signals/track-audio.ts';
import { silentRanges } from '../signals/track-silence.ts';
import { encodeSamples, type Quantising } from '../signals/wav/encode-samples.ts';
import { type WavLayout, type WavSampleFormat, wavHeader, wavTail } from '../signals/wav/wav-header.ts';
import { pathIssue } from './text-file.ts';

/** Frames made and written at once. */
const BLOCK_FRAMES = 65_536;
/** Shorter rests inside a track are dithered like the sound around them. */
const DIGITAL_SILENCE_S = 0.05;

export interface TrackFiles {
  wavPath: string;
  descriptionPath: string;
}

/** Where the description of a WAV file stands: beside it, under the same name. */
export function descriptionPathFor(wavPath: string): string {
  return wavPath.replace(/\.wav$/i, '.track.json');
}

/**
 * Writes `track` as sound and as description.
 *
 * Both are written in full under other names first, then take their names; what stood there before is replaced, and
 * stays if anything fails before that.
 *
 * @param seed of the dither of 16-bit samples
 * @returns whether a file was replaced, or why nothing could be written
 */
export function writeTrack(
  track: TrackDescription,
  files: TrackFiles,
  options: { format: WavSampleFormat; seed: number; onProgress: (share: number) => void },
): Result<{ replaced: boolean }> {
  assert(trackSchema.safeParse(track).success, 'a track must keep its own schema');
  let drafts: string | undefined;
  let path = files.wavPath;
  let replaced = false;
  try {
    for (path of [files.wavPath, files.descriptionPath]) replaced = fileStands(path) || replaced;
    path = files.wavPath;
    drafts = mkdtempSync(join(dirname(files.wavPath), '.track-'));
    const wavDraft = join(drafts, basename(files.wavPath));
    const descriptionDraft = join(drafts, basename(files.descriptionPath));
    writeDraft(wavDraft, (write) => writeSound(track, options, write));
    path = files.descriptionPath;
    writeDraft(descriptionDraft, (write) => write(new TextEncoder().encode(`${JSON.stringify(track, null, 1)}\n`)));
    path = files.wavPath;
    takeNames({ wavPath: wavDraft, descriptionPath: descriptionDraft }, files, join(drafts, 'before'));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    return failure(pathIssue(path, error, 'written'));
  } finally {
    if (drafts !== undefined) rmSync(drafts, { recursive: true, force: true });
  }
  return success({ replaced });
}

/** Gives the drafts their names; if that fails half way, the description that stood there comes back from `aside`. */
function takeNames(drafts: TrackFiles, files: TrackFiles, aside: string): void {
  const old = fileStands(files.descriptionPath);
  if (old) renameSync(files.descriptionPath, aside);
  try {
    renameSync(drafts.descriptionPath, files.descriptionPath);
    renameSync(drafts.wavPath, files.wavPath);
  } catch (error) {
    if (old) renameSync(aside, files.descriptionPath);
    else rmSync(files.descriptionPath, { force: true });
    throw error;
  }
}

/** Whether a file stands at a path; throws where something stands that a file cannot replace. */
function fileStands(path: string): boolean {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found !== undefined && !found.isFile()) throw Object.assign(new Error(`not a file: ${path}`), { code: 'EISDIR' });
  return found !== undefined;
}

function writeDraft(path: string, produce: (write: (bytes: Uint8Array) => void) => void): void {
  const file = openSync(path, 'wx', 0o666);
  try {
    produce((bytes) => {
      let rest = bytes;
      while (rest.length > 0) rest = rest.subarray(writeSync(file, rest));
    });
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function writeSound(
  track: TrackDescription,
  options: { format: WavSampleFormat; seed: number; onProgress: (share: number) => void },
  write: (bytes: Uint8Array) => void,
): void {
  const audio = trackAudio(track);
  assert(audio.silentSegments.length === 0, 'a track we designed must be playable in full');
  const { format, seed } = options;
  const layout: WavLayout = { channels: audio.channels, rateHz: audio.rateHz, format, frames: audio.frames };
  const quantising: Quantising =
    format === '16' ? { format, dither: { seed, silentRanges: silentRanges(track, DIGITAL_SILENCE_S) } } : { format };
  write(wavHeader(layout));
  for (let start = 0; start < audio.frames; start += BLOCK_FRAMES) {
    const block = audio.renderBlock(start, Math.min(BLOCK_FRAMES, audio.frames - start));
    write(encodeSamples(block, start, quantising));
    options.onProgress(Math.min(1, (start + BLOCK_FRAMES) / audio.frames));
  }
  write(wavTail(layout));
}
