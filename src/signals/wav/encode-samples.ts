// Samples into bytes, in pieces of any size: a sample's bytes depend on its value and place alone, not on the pieces.
import { assert } from '../../base/assert.ts';
import { hash32 } from '../../base/random.ts';
import { sampleBytes, type WavSampleFormat } from './wav-header.ts';

/** A stretch of frames, counted from the first frame of the file. */
export interface FrameRange {
  startFrame: number;
  frames: number;
}

/** How sample values become numbers. */
export interface Quantising {
  format: WavSampleFormat;
  /** Triangular dither, for 16 bits only; none when absent. */
  dither?: {
    /** 0 .. 2^32 - 1 */
    seed: number;
    /** Stretches in which exact zeros stay zeros: silence that means "the player is muted". Rising, apart. */
    silentRanges?: FrameRange[];
  };
}

/**
 * Interleaved little-endian samples of a piece of sound.
 *
 * Whole numbers are `round(x * (2^(bits - 1) - 1))`, so that +1 and -1 are both reached and a reversed signal is the
 * same numbers reversed. The dither is the difference of two uniform numbers, one step each, added before rounding; it
 * makes the error noise of constant power (a quarter of a step squared) whatever the signal. Values beyond full scale
 * stop at full scale, as in a converter; floats keep them.
 *
 * @param channels   one array a channel, equally long, full scale = 1; not changed
 * @param startFrame place of the first sample in the file, which the dither depends on
 * @throws RangeError a sample that is not finite: the caller's mistake
 * Source of the dither: S. Lipshitz, R. Wannamaker, J. Vanderkooy, "Quantization and dither: a theoretical survey",
 * JAES 40(5), 1992.
 */
export function encodeSamples(
  channels: readonly Float64Array[],
  startFrame: number,
  quantising: Quantising,
): Uint8Array {
  const frames = channels[0]?.length ?? 0;
  assert(
    channels.every((channel) => channel.length === frames),
    'channels must be equally long',
  );
  const { format, dither } = quantising;
  const bytes = new Uint8Array(frames * channels.length * sampleBytes(format));
  channels.forEach((samples, channel) => {
    requireFinite(samples, channel, startFrame);
    const place: Place = { channel, channels: channels.length, startFrame };
    if (format === '32f') encodeFloat32(samples, bytes, place);
    else if (format === '24') encodeInt24(samples, bytes, place);
    else encodeInt16(samples, bytes, place, dither);
  });
  return bytes;
}

interface Place {
  channel: number;
  channels: number;
  startFrame: number;
}

function requireFinite(samples: Float64Array, channel: number, startFrame: number): void {
  for (let i = 0; i < samples.length; i++) {
    if (!(Math.abs(samples[i]) < 1e30)) {
      throw new RangeError(`channel ${channel}, frame ${startFrame + i} must be finite, got ${samples[i]}`);
    }
  }
}

function encodeInt16(samples: Float64Array, bytes: Uint8Array, place: Place, dither: Quantising['dither']): void {
  const silent = dither ? silenceTester(dither.silentRanges ?? []) : undefined;
  for (let i = 0, at = 2 * place.channel; i < samples.length; i++, at += 2 * place.channels) {
    const frame = place.startFrame + i;
    let value = samples[i] * 32767;
    if (dither && !(silent?.(frame) && value === 0)) {
      const n = 2 * (frame * place.channels + place.channel);
      value += (hash32(dither.seed, n >>> 0) - hash32(dither.seed, (n + 1) >>> 0)) / 4294967296;
    }
    const whole = Math.max(-32768, Math.min(32767, roundAway(value)));
    bytes[at] = whole & 255;
    bytes[at + 1] = (whole >> 8) & 255;
  }
}

function encodeInt24(samples: Float64Array, bytes: Uint8Array, place: Place): void {
  for (let i = 0, at = 3 * place.channel; i < samples.length; i++, at += 3 * place.channels) {
    const whole = Math.max(-8388608, Math.min(8388607, roundAway(samples[i] * 8388607)));
    bytes[at] = whole & 255;
    bytes[at + 1] = (whole >> 8) & 255;
    bytes[at + 2] = (whole >> 16) & 255;
  }
}

function encodeFloat32(samples: Float64Array, bytes: Uint8Array, place: Place): void {
  const view = new DataView(bytes.buffer);
  for (let i = 0, at = 4 * place.channel; i < samples.length; i++, at += 4 * place.channels) {
    view.setFloat32(at, samples[i], true);
  }
}

/** Nearest whole number, halves away from zero, so that sign and rounding may change places. */
function roundAway(value: number): number {
  return value < 0 ? -Math.floor(0.5 - value) : Math.floor(value + 0.5);
}

/** Tells for rising frames whether they lie in one of the ranges, without searching anew for each. */
function silenceTester(ranges: FrameRange[]): (frame: number) => boolean {
  let k = 0;
  return (frame) => {
    while (k < ranges.length && frame >= ranges[k].startFrame + ranges[k].frames) k++;
    return k < ranges.length && frame >= ranges[k].startFrame;
  };
}
