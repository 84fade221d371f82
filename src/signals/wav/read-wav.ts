// A WAV file as a recording: what is whole is read, what is odd is said, what cannot be read is refused by name.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import type { ByteSource } from '../recording.ts';
import { latinText } from './bytes.ts';
import { searchChunks } from './chunk-search.ts';
import { type Container, soundChunks } from './chunks.ts';
import { formatFrom } from './format-chunk.ts';
import { bytesMax, emptyFile, noData, noFormat, noFrames, notWav, tooLarge, tooLong } from './refusals.ts';
import { sizeNotes } from './size-notes.ts';
import { frameBytes, type WavNote } from './wav-format.ts';
import { type WavRecording, wavRecording } from './wav-recording.ts';

/** What a WAV file holds, and what was odd about the file. */
export interface WavReading {
  recording: WavRecording;
  notes: WavNote[];
}

/** The longest recording that is taken on, s. */
const durationMaxS = 7200;

/**
 * The recording in a WAV file, ready to be decoded piece by piece.
 *
 * Linear PCM of 8 to 64 bits and floats of 32 and 64 bits, plain or with the extensible header, in RIFF, RIFX, RF64 and
 * BW64. Reads headers only, so it takes the same time and memory for a second as for an hour.
 *
 * @param source at most 1 GiB are accepted; it must stay readable as long as the recording is used
 * @returns the recording (1 .. 64 channels, 4 000 .. 768 000 Hz, 1 frame .. 2 h) with what was odd about the file; or
 * issues `not-a-wav`, `empty`, `too-large`, `no-format`, `no-data`, `compressed-format`, `bad-format`, `too-long`
 * Source: Multimedia Programming Interface and Data Specifications 1.0 (1991); EBU Tech 3306; ITU-R BS.2088.
 */
export function readWav(source: ByteSource): Result<WavReading> {
  if (source.byteLength === 0) return failure(emptyFile());
  const head = source.read(0, Math.min(source.byteLength, 512)).slice();
  const container = containerOf(head);
  if (!container) return failure(notWav(head));
  if (source.byteLength > bytesMax) return failure(tooLarge(source.byteLength));

  const chunks = soundChunks(source, container);
  if (!chunks.format || !chunks.data) searchChunks(source, container === 'RIFX', chunks);
  const { format: formatChunk, data } = chunks;
  const missing: Issue[] = [];
  if (!formatChunk) missing.push(noFormat());
  if (!data) missing.push(noData(chunks));
  if (!formatChunk || !data) return failure(...missing);

  const described = formatFrom(formatChunk.body, formatChunk.at, container === 'RIFX');
  if (!described.ok) return described;
  const { format } = described.value;
  const frames = Math.floor(data.presentBytes / frameBytes(format));
  if (frames === 0) return failure(noFrames(data));
  if (frames / format.rateHz > durationMaxS) return failure(tooLong(frames, format));
  const notes = [
    ...chunks.notes,
    ...described.value.notes,
    ...sizeNotes(chunks.callsItselfWhole, data, format, frames),
  ];
  return success({ recording: wavRecording(source, format, data.at, frames), notes });
}

function containerOf(head: Uint8Array): Container | undefined {
  const id = latinText(head, 0, 4);
  if (latinText(head, 8, 4) !== 'WAVE') return undefined;
  return id === 'RIFF' || id === 'RIFX' || id === 'RF64' || id === 'BW64' ? id : undefined;
}
