// Why a file is not read, in words.
import type { Issue } from '../../base/result.ts';
import { latinText } from './bytes.ts';
import type { DataChunk, SoundChunks } from './chunks.ts';
import { foreignFile } from './foreign-file.ts';
import type { WavFormat } from './wav-format.ts';

/** The largest file that is taken on: 1 GiB. */
export const bytesMax = 1 << 30;

/** The first bytes are not those of a WAV file. */
export function notWav(head: Uint8Array): Issue {
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

/** There is no byte. */
export function emptyFile(): Issue {
  return {
    code: 'empty',
    message: 'The file is empty.',
    where: 'byte 0',
    mend: 'Copy it from the recorder again, or record again.',
  };
}

/** More bytes than are taken on. */
export function tooLarge(bytes: number): Issue {
  return {
    code: 'too-large',
    message: `The file has ${(bytes / 2 ** 20).toFixed(0)} MiB; up to ${bytesMax / 2 ** 20} MiB are read.`,
    where: 'file size',
    mend: 'Cut out the part in which the track plays, or record in 24 bits at 48000 Hz.',
  };
}

/** More time than is taken on. */
export function tooLong(frames: number, format: WavFormat): Issue {
  return {
    code: 'too-long',
    message: `The recording lasts ${(frames / format.rateHz / 3600).toFixed(1)} h by its header; up to 2 h are read.`,
    where: 'chunk "data"',
    mend: 'Cut out the part in which the track plays.',
  };
}

/** The chunk "fmt " is missing. */
export function noFormat(): Issue {
  return {
    code: 'no-format',
    message: 'The file does not say what kind of sound it holds: the chunk "fmt " is missing.',
    where: 'chunk "fmt "',
    mend: 'The header is damaged. Copy the file from the recorder again, or record again.',
  };
}

/** The chunk "data" is missing. */
export function noData(chunks: SoundChunks): Issue {
  const other = chunks.largestOther;
  const hint = other ? ` The largest thing in it calls itself "${other.id}" and claims ${other.sizeBytes} bytes.` : '';
  return {
    code: 'no-data',
    message: `There is no sound in the file: the chunk "data" is missing.${hint}`,
    where: 'chunk "data"',
    mend: 'The recording was not finished or is damaged. Copy the file from the recorder again, or record again.',
  };
}

/** There is not one whole frame. */
export function noFrames(data: DataChunk): Issue {
  return {
    code: 'empty',
    message: `The file holds no sound: ${data.presentBytes} bytes of it.`,
    where: `chunk "data" at byte ${data.at - 8}`,
    mend: 'Copy it from the recorder again, or record again.',
  };
}
