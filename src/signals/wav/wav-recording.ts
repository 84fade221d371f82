// A WAV file as a recording: decoded piece by piece when asked, never whole.
import { assert, assertRange } from '../../base/assert.ts';
import type { ByteSource, Recording } from '../recording.ts';
import { rubbishFloats, sampleDecoder } from './sample-decoding.ts';
import { frameBytes, type WavFormat } from './wav-format.ts';

/** A recording that can also say how much of it is no number. */
export interface WavRecording extends Recording {
  /**
   * How many of the samples `start` .. `start + length - 1` of a channel are not finite, or so large that they are
   * no sound; `readChannel` gives 0 for them. Always 0 unless `floatingPoint`.
   */
  notFinite(channel: number, start: number, length: number): number;
}

/** Bytes fetched at once: large enough to be quick, small enough not to count. */
const blockBytes = 1 << 18;

/**
 * The sound in `source` from byte `dataAt`, decoded on demand.
 *
 * @param frames whole frames there; `dataAt + frames * frame size` lies within the source
 * @throws RangeError a channel that is not there: the caller's mistake
 */
export function wavRecording(source: ByteSource, format: WavFormat, dataAt: number, frames: number): WavRecording {
  const stride = frameBytes(format);
  assert(dataAt + frames * stride <= source.byteLength, 'the frames must lie within the source');
  const decode = sampleDecoder(format);
  const blockFrames = Math.max(1, Math.floor(blockBytes / stride));

  /** Calls `visit` with the bytes of each block of the part of `start`, `length` that exists. */
  function visitBlocks(
    channel: number,
    start: number,
    length: number,
    visit: (bytes: Uint8Array, position: number, count: number, offset: number) => void,
  ): void {
    assertRange('channel', channel, 0, format.channels - 1);
    assert(Number.isInteger(channel) && Number.isInteger(start) && length >= 0, 'channel, start and length are counts');
    const from = Math.max(0, start);
    const to = Math.min(frames, start + length);
    for (let at = from; at < to; at += blockFrames) {
      const count = Math.min(blockFrames, to - at);
      const bytes = source.read(dataAt + at * stride, count * stride);
      visit(bytes, channel * format.containerBytes, count, at - start);
    }
  }

  return {
    rateHz: format.rateHz,
    channels: format.channels,
    frames,
    stepSize: format.floatingPoint ? 0 : 2 ** (1 - format.bits),
    bits: format.bits,
    floatingPoint: format.floatingPoint,
    readChannel(channel, start, length, out) {
      assert(length <= out.length, `out must hold ${length} samples, holds ${out.length}`);
      out.fill(0, 0, Math.min(length, Math.max(0, -start)));
      out.fill(0, Math.min(length, Math.max(0, frames - start)), length);
      visitBlocks(channel, start, length, (bytes, position, count, offset) => {
        decode(bytes, position, stride, count, out, offset);
      });
    },
    notFinite(channel, start, length) {
      if (!format.floatingPoint) return 0;
      let rubbish = 0;
      visitBlocks(channel, start, length, (bytes, position, count) => {
        rubbish += rubbishFloats(format, bytes, position, stride, count);
      });
      return rubbish;
    },
  };
}
