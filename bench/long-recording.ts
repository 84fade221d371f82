// Recordings of minutes, written piece by piece: too long to be rendered by the practice bay in one go.
import { closeSync, openSync, writeSync } from 'node:fs';
import { gauss } from '../src/base/random.ts';
import { linearChirp } from '../src/signals/chirp.ts';
import { exponentialSweep } from '../src/signals/sweep.ts';
import type { MarkerSegment, SweepSegment, TrackDescription } from '../src/signals/track.ts';
import { encodeSamples } from '../src/signals/wav/encode-samples.ts';
import { type WavLayout, wavHeader } from '../src/signals/wav/wav-header.ts';

/** Direct sound and reflections of each side, as (delay in s, gain): enough for the readers to have a car to read. */
const PATHS = {
  left: [
    [0.0021, 0.2],
    [0.0058, -0.07],
    [0.0133, 0.04],
  ],
  right: [
    [0.0034, 0.15],
    [0.0047, 0.06],
    [0.0102, -0.05],
  ],
};
const NOISE = 3e-4;

function waveOf(segment: TrackDescription['segments'][number], rateHz: number): Float64Array | null {
  if (segment.kind === 'sweep') return exponentialSweep(segment as SweepSegment, rateHz);
  if (segment.kind === 'marker') return linearChirp(segment as MarkerSegment, rateHz);
  return null;
}

/** Adds what the microphone hears of one segment to the piece, `start` counted from its beginning. */
function addHeard(piece: Float64Array, wave: Float64Array, start: number, paths: number[][], rateHz: number): void {
  for (const [delayS, gain] of paths) {
    const at = start + Math.round(delayS * rateHz);
    for (let n = Math.max(0, -at); n < Math.min(wave.length, piece.length - at); n++) piece[at + n] += gain * wave[n];
  }
}

/**
 * Writes what a stereo recorder hears of a track: second input 6 dB down with noise of its own.
 *
 * @param startS  of the track in the recording
 */
export function writeLongRecording(
  path: string,
  track: TrackDescription,
  { startS, durationS }: { startS: number; durationS: number },
): void {
  const { rateHz } = track;
  const layout: WavLayout = { channels: 2, rateHz, format: '24', frames: Math.round(durationS * rateHz) };
  const file = openSync(path, 'w');
  writeSync(file, wavHeader(layout));
  const pieceFrames = 1 << 18;
  const sounding = track.segments
    .filter(({ kind }) => kind === 'sweep' || kind === 'marker')
    .map((segment) => ({ segment, start: Math.round(startS * rateHz) + Math.round(segment.startS * rateHz) }));
  const waves = new Map<object, Float64Array>();
  for (let first = 0; first < layout.frames; first += pieceFrames) {
    const count = Math.min(pieceFrames, layout.frames - first);
    const piece = new Float64Array(count);
    for (const { segment, start } of sounding) {
      const end = start + (segment.durationS + 0.1) * rateHz;
      if (start > first + count || end < first) {
        waves.delete(segment);
        continue;
      }
      const wave = waves.get(segment) ?? waveOf(segment, rateHz);
      if (!wave) continue;
      waves.set(segment, wave);
      addHeard(
        piece,
        wave,
        start - first,
        (segment as SweepSegment).side === 'right' ? PATHS.right : PATHS.left,
        rateHz,
      );
    }
    const left = piece.map((value, n) => value + NOISE * gauss(1, first + n));
    const right = piece.map((value, n) => 0.5 * value + NOISE * gauss(2, first + n));
    writeSync(file, encodeSamples([left, right], first, { format: '24' }));
  }
  closeSync(file);
}
