// The bytes before and after the samples of a WAV file that is being written.
import { assert, assertRange } from '../../base/assert.ts';

/** How samples are written: whole numbers of 16 or 24 bits, or 32-bit floats. */
export type WavSampleFormat = '16' | '24' | '32f';

/** What must be known of a file before its first byte is written. */
export interface WavLayout {
  /** 1 .. 64 */
  channels: number;
  /** 4 000 .. 768 000, whole */
  rateHz: number;
  format: WavSampleFormat;
  /** Samples per channel; the file must stay below 4 GiB. */
  frames: number;
}

/** Bytes of one sample. */
export function sampleBytes(format: WavSampleFormat): number {
  return { '16': 2, '24': 3, '32f': 4 }[format];
}

/** Bytes of the whole file, header, samples and filling byte. */
export function wavByteLength(layout: WavLayout): number {
  const data = dataBytes(layout);
  return headerBytes(layout.format) + data + (data % 2);
}

/**
 * The header of a WAV file: everything before the first sample.
 *
 * Whole numbers get the plain 44 bytes with format tag 1, 24 bits too, since every player takes that; floats get the
 * longer form with the "fact" chunk that the specification asks of them. After the samples comes `wavTail`.
 *
 * @throws RangeError a field outside its range, or more than fits into 4 GiB: the caller's mistake
 * Source: Multimedia Programming Interface and Data Specifications 1.0 (1991) and its 1994 revision.
 */
export function wavHeader(layout: WavLayout): Uint8Array {
  assertRange('channels', layout.channels, 1, 64);
  assertRange('rateHz', layout.rateHz, 4000, 768_000);
  assert(Number.isInteger(layout.channels) && Number.isInteger(layout.rateHz), 'channels and rateHz must be whole');
  assert(Number.isInteger(layout.frames), 'frames must be whole');
  assertRange('bytes of the file', layout.frames < 0 ? -1 : wavByteLength(layout), 0, 0xffffffff);
  const floatingPoint = layout.format === '32f';
  const frame = layout.channels * sampleBytes(layout.format);
  const bytes = new Uint8Array(headerBytes(layout.format));
  const view = new DataView(bytes.buffer);
  let at = 0;
  const name = (text: string) => {
    for (const letter of text) bytes[at++] = letter.charCodeAt(0);
  };
  const number32 = (value: number) => {
    view.setUint32(at, value, true);
    at += 4;
  };
  const number16 = (value: number) => {
    view.setUint16(at, value, true);
    at += 2;
  };
  name('RIFF');
  number32(wavByteLength(layout) - 8);
  name('WAVEfmt ');
  number32(floatingPoint ? 18 : 16);
  number16(floatingPoint ? 3 : 1);
  number16(layout.channels);
  number32(layout.rateHz);
  number32(layout.rateHz * frame);
  number16(frame);
  number16(8 * sampleBytes(layout.format));
  if (floatingPoint) {
    number16(0);
    name('fact');
    number32(4);
    number32(layout.frames);
  }
  name('data');
  number32(dataBytes(layout));
  return bytes;
}

/** What follows the last sample: one zero byte if the samples are an odd number of bytes, else nothing. */
export function wavTail(layout: WavLayout): Uint8Array {
  return new Uint8Array(dataBytes(layout) % 2);
}

function headerBytes(format: WavSampleFormat): number {
  return format === '32f' ? 58 : 44;
}

function dataBytes(layout: WavLayout): number {
  return layout.frames * layout.channels * sampleBytes(layout.format);
}
