// A WAV file as a recording: what is whole is read, what is odd is said, what cannot be read is refused by name.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import type { ByteSource } from '../recording.ts';
import { latinText } from './bytes.ts';
import { searchChunks } from './chunk-search.ts';
import { type Container, type DataChunk, type SoundChunks, soundChunks } from './chunks.ts';
import { foreignFile } from './foreign-file.ts';
import { formatFrom } from './format-chunk.ts';
import { frameBytes, type WavFormat, type WavNote } from './wav-format.ts';
import { type WavRecording, wavRecording } from './wav-recording.ts';

/** What a WAV file holds, and what was odd about the file. */
export interface WavReading {
  recording: WavRecording;
  notes: WavNote[];
}

/** The largest file that is taken on: 1 GiB. */
const bytesMax = 1 << 30;
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
  if (source.byteLength === 0) {
    return failure({
      code: 'empty',
      message: 'The file is empty.',
      where: 'byte 0',
      mend: 'Copy it from the recorder again, or record again.',
    });
  }
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
  const notes = [...chunks.notes, ...described.value.notes, ...sizeNotes(chunks, data, format, frames)];
  return success({ recording: wavRecording(source, format, data.at, frames), notes });
}

function containerOf(head: Uint8Array): Container | undefined {
  const id = latinText(head, 0, 4);
  if (latinText(head, 8, 4) !== 'WAVE') return undefined;
  return id === 'RIFF' || id === 'RIFX' || id === 'RF64' || id === 'BW64' ? id : undefined;
}

function notWav(head: Uint8Array): Issue {
  const begun = ['RIFF', 'RIFX', 'RF64', 'BW64'].includes(latinText(head, 0, 4));
  if (!begun || latinText(head, 8, 4) === 'AVI ' || latinText(head, 8, 4) === 'WEBP') return foreignFile(head);
  const cut = head.length < 12;
  return {
    code: 'not-a-wav',
    message: cut
      ? `The file ends within its header, after ${head.length} bytes.`
      : `The file begins like a WAV file, but says ${JSON.stringify(latinText(head, 8, 4))} where "WAVE" should stand.`,
    where: cut ? `byte ${head.length}` : 'byte 8',
    mend: 'Copy it from the recorder again, or record again as WAV.',
  };
}

/** What must be said about the size of the sound: promised, present, and what does not fill a frame. */
function sizeNotes(chunks: SoundChunks, data: DataChunk, format: WavFormat, frames: number): WavNote[] {
  const notes: WavNote[] = [];
  const where = `chunk "data" at byte ${data.at - 8}`;
  const { promisedBytes, presentBytes } = data;
  const frame = frameBytes(format);
  const seconds = (count: number) => (count / format.rateHz).toFixed(3);
  if (promisedBytes === undefined) {
    notes.push({
      code: 'size-unknown',
      message: `The header does not say how long the sound is (the recorder did not finish the file); ${seconds(frames)} s up to the end of the file are read.`,
      where,
      values: { frames },
    });
  } else if (promisedBytes > presentBytes && chunks.callsItselfWhole) {
    notes.push({
      code: 'size-contradicted',
      message: `The header promises ${promisedBytes} bytes of sound in a file that it calls whole with ${presentBytes}; ${seconds(frames)} s up to the end of the file are read.`,
      where,
      values: { promisedBytes, presentBytes, frames },
    });
  } else if (promisedBytes > presentBytes) {
    const promisedFrames = Math.floor(promisedBytes / frame);
    notes.push({
      code: 'data-cut-short',
      message: `The file is cut short: it holds ${seconds(frames)} s of the ${seconds(promisedFrames)} s that its header promises.`,
      where,
      values: { frames, promisedFrames, missingFrames: promisedFrames - frames },
    });
  }
  const leftOverBytes = presentBytes - frames * frame;
  if (leftOverBytes > 0) {
    notes.push({
      code: 'part-frame',
      message: `The last ${leftOverBytes} bytes of the sound do not fill a frame of ${frame} and were left aside.`,
      where: `byte ${data.at + frames * frame}`,
      values: { leftOverBytes },
    });
  }
  return notes;
}

function tooLarge(bytes: number): Issue {
  return {
    code: 'too-large',
    message: `The file has ${(bytes / 2 ** 20).toFixed(0)} MiB; up to ${bytesMax / 2 ** 20} MiB are read.`,
    where: 'file size',
    mend: 'Cut out the part in which the track plays, or record in 24 bits at 48000 Hz.',
  };
}

function tooLong(frames: number, format: WavFormat): Issue {
  return {
    code: 'too-long',
    message: `The recording lasts ${(frames / format.rateHz / 3600).toFixed(1)} h by its header; up to 2 h are read.`,
    where: 'chunk "data"',
    mend: 'Cut out the part in which the track plays.',
  };
}

function noFormat(): Issue {
  return {
    code: 'no-format',
    message: 'The file does not say what kind of sound it holds: the chunk "fmt " is missing.',
    where: 'chunk "fmt "',
    mend: 'The header is damaged. Copy the file from the recorder again, or record again.',
  };
}

function noData(chunks: SoundChunks): Issue {
  const other = chunks.largestOther;
  const hint = other ? ` The largest thing in it calls itself "${other.id}" and claims ${other.sizeBytes} bytes.` : '';
  return {
    code: 'no-data',
    message: `There is no sound in the file: the chunk "data" is missing.${hint}`,
    where: 'chunk "data"',
    mend: 'The recording was not finished or is damaged. Copy the file from the recorder again, or record again.',
  };
}

function noFrames(data: DataChunk): Issue {
  return {
    code: 'empty',
    message: `The file holds no sound: ${data.presentBytes} bytes of it.`,
    where: `chunk "data" at byte ${data.at - 8}`,
    mend: 'Copy it from the recorder again, or record again.',
  };
}
