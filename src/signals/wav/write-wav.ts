// A whole WAV file at once, for sound that fits into memory; longer files put wavHeader and encodeSamples together.
import { assert } from '../../base/assert.ts';
import { encodeSamples, type FrameRange } from './encode-samples.ts';
import { type WavLayout, type WavSampleFormat, wavByteLength, wavHeader } from './wav-header.ts';

export interface WavContent {
  /** One array a channel, equally long, full scale = 1. */
  channels: Float64Array[];
  /** 4 000 .. 768 000 */
  rateHz: number;
  format: WavSampleFormat;
  /**
   * Triangular dither, used with 16 bits only. Without `silentRanges` every stretch of 50 ms or more in which all
   * channels are exactly zero stays silent.
   */
  dither?: { seed: number; silentRanges?: FrameRange[] };
}

/** Frames encoded at once; keeps the work in a small part of memory. */
const blockFrames = 65_536;

/**
 * The bytes of a WAV file.
 *
 * @param content not changed; values beyond full scale stop there, except in floats
 * @throws Error a field out of its range, channels not equally long, a sample not finite: the caller's mistake
 * @example writeWav({ channels: [new Float64Array(48000)], rateHz: 48000, format: '24' }) // 144 044 bytes
 */
export function writeWav(content: WavContent): Uint8Array {
  const { channels, rateHz, format } = content;
  assert(channels.length > 0, 'a file needs a channel');
  const frames = channels[0].length;
  assert(
    channels.every((channel) => channel.length === frames),
    'channels must be equally long',
  );
  const layout: WavLayout = { channels: channels.length, rateHz, format, frames };
  const header = wavHeader(layout);
  const bytes = new Uint8Array(wavByteLength(layout));
  bytes.set(header);
  const dither = content.dither && {
    seed: content.dither.seed,
    silentRanges: content.dither.silentRanges ?? digitalSilence(channels, Math.ceil(0.05 * rateHz)),
  };
  let at = header.length;
  for (let start = 0; start < frames; start += blockFrames) {
    const block = channels.map((channel) => channel.subarray(start, start + blockFrames));
    const encoded = encodeSamples(block, start, dither ? { format, dither } : { format });
    bytes.set(encoded, at);
    at += encoded.length;
  }
  return bytes;
}

/** The stretches of at least `minFrames` in which every channel is exactly zero. */
export function digitalSilence(channels: readonly Float64Array[], minFrames: number): FrameRange[] {
  const ranges: FrameRange[] = [];
  const frames = channels[0]?.length ?? 0;
  let startFrame = 0;
  for (let i = 0; i <= frames; i++) {
    if (i < frames && channels.every((channel) => channel[i] === 0)) continue;
    if (i - startFrame >= minFrames) ranges.push({ startFrame, frames: i - startFrame });
    startFrame = i + 1;
  }
  return ranges;
}
