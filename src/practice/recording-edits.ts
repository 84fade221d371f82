// What happens to a recording after the microphone: samples lost, doubled or emptied, ends cut off, clicks.
import { uniform } from '../base/random.ts';
import { seedFor } from './chance.ts';

/** One change to the written samples. Times in s of the recording before it. */
export type RecordingEdit =
  | { kind: 'lose'; atS: number; samples: number }
  | { kind: 'double'; atS: number; samples: number }
  | { kind: 'zero-fill'; atS: number; durationS: number }
  | { kind: 'cut-start'; durationS: number }
  | { kind: 'cut-end'; atS: number }
  | { kind: 'clicks'; count: number; level: number; fromS: number; toS: number };

/** The recording after one edit; a new array. Places outside the recording do nothing. */
export function edited(signal: Float64Array, edit: RecordingEdit, rateHz: number, seed: number): Float64Array {
  const index = (timeS: number) => Math.max(0, Math.min(signal.length, Math.round(timeS * rateHz)));
  switch (edit.kind) {
    case 'cut-start':
      return signal.slice(index(edit.durationS));
    case 'cut-end':
      return signal.slice(0, index(edit.atS));
    case 'zero-fill':
      return Float64Array.from(signal).fill(0, index(edit.atS), index(edit.atS + edit.durationS));
    case 'lose': {
      const at = index(edit.atS);
      return joined(signal.subarray(0, at), signal.subarray(Math.min(signal.length, at + edit.samples)));
    }
    case 'double': {
      const at = index(edit.atS);
      return joined(signal.subarray(0, Math.min(signal.length, at + edit.samples)), signal.subarray(at));
    }
    case 'clicks': {
      const out = Float64Array.from(signal);
      const drawSeed = seedFor(seed, 'clicks');
      for (let k = 0; k < edit.count; k++) {
        const at = index(edit.fromS + (edit.toS - edit.fromS) * uniform(drawSeed, 2 * k));
        if (at < out.length) out[at] += uniform(drawSeed, 2 * k + 1) < 0.5 ? -edit.level : edit.level;
      }
      return out;
    }
  }
}

function joined(first: Float64Array, second: Float64Array): Float64Array {
  const out = new Float64Array(first.length + second.length);
  out.set(first);
  out.set(second, first.length);
  return out;
}
