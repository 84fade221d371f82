// What must be said when a file holds more or less sound than its header promises.
import type { DataChunk } from './chunks.ts';
import { frameBytes, type WavFormat, type WavNote } from './wav-format.ts';

/** What must be said about the size of the sound: promised, present, and what does not fill a frame. */
export function sizeNotes(callsItselfWhole: boolean, data: DataChunk, format: WavFormat, frames: number): WavNote[] {
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
  } else if (promisedBytes > presentBytes && callsItselfWhole) {
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
