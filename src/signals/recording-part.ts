// A stretch of a recording as a recording of its own; no sample is copied.
import type { Recording } from './recording.ts';

/** Frames `start` .. `start + frames - 1` of `whole`, cut to what it holds; what lies outside reads as 0. */
export function recordingPart(whole: Recording, start: number, frames: number): Recording {
  const from = Math.max(0, Math.min(whole.frames, Math.floor(start)));
  const length = Math.max(0, Math.min(whole.frames, Math.floor(start + frames)) - from);
  /** Calls `use` with what of the frames asked for lies inside. */
  const inside = (at: number, count: number): { first: number; count: number } => {
    const first = Math.max(0, at);
    return { first, count: Math.max(0, Math.min(length, at + count) - first) };
  };
  return {
    rateHz: whole.rateHz,
    channels: whole.channels,
    frames: length,
    stepSize: whole.stepSize,
    bits: whole.bits,
    floatingPoint: whole.floatingPoint,
    readChannel(channel, at, count, out) {
      const { first, count: known } = inside(at, count);
      out.fill(0, 0, count);
      if (known > 0) whole.readChannel(channel, from + first, known, out.subarray(first - at));
    },
    notFinite(channel, at, count) {
      const { first, count: known } = inside(at, count);
      return known > 0 ? (whole.notFinite?.(channel, from + first, known) ?? 0) : 0;
    },
  };
}
