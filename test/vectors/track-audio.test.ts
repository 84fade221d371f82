// A track made by another program, described in our form: our rendering must be the same sound.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { trackSchema } from '../../src/signals/track.ts';
import { trackAudio } from '../../src/signals/track-audio.ts';
import { encodeSamples } from '../../src/signals/wav/encode-samples.ts';

interface SideVector {
  index: number[];
  sample: number[];
  sumOfSquares: number;
}

const vector: { track: unknown; frames: number; left: SideVector; right: SideVector } = JSON.parse(
  readFileSync('test/vectors/track-audio.json', 'utf8'),
);
const audio = trackAudio(trackSchema.parse(vector.track));

/** The rendering as 24-bit numbers, in blocks of an awkward length. */
function quantised(channel: number): Int32Array {
  const out = new Int32Array(audio.frames);
  for (let start = 0; start < audio.frames; start += 7001) {
    const block = audio.renderBlock(start, Math.min(7001, audio.frames - start));
    const bytes = encodeSamples([block[channel]], start, { format: '24' });
    for (let n = 0; n < bytes.length / 3; n++) {
      out[start + n] = ((bytes[3 * n] << 8) | (bytes[3 * n + 1] << 16) | (bytes[3 * n + 2] << 24)) >> 8;
    }
  }
  return out;
}

test('the rendering has the length of the other program, and every segment plays', () => {
  expect(audio.frames).toBe(vector.frames);
  expect(audio.silentSegments).toEqual([]);
});

test.each([
  ['left', 0],
  ['right', 1],
] as const)('the %s side is the same to the 24-bit number', (side, channel) => {
  const samples = quantised(channel);
  expect(vector[side].index.map((index) => samples[index])).toEqual(vector[side].sample);
  const sum = samples.reduce((total, value) => total + value * value, 0);
  expect(Math.abs(sum / vector[side].sumOfSquares - 1)).toBeLessThan(1e-9);
});
