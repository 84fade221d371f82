import { expect, test } from 'vitest';
import { type NoiseRecipe, simulatedNoise } from '../../../test/noise-hunt/simulated-noise.ts';
import { recordingFromArrays } from '../../signals/recording.ts';
import { foundPops } from './pops.ts';

const pops = (recipe: NoiseRecipe) => foundPops(recordingFromArrays([simulatedNoise(recipe)], 16_000), 0);

test('pops are found with their time and their level over the noise', () => {
  const { pops: found } = pops({
    pops: [
      { atS: 2, peak: 0.1 },
      { atS: 3.2, peak: 0.02 },
    ],
  });
  expect(found).toHaveLength(2);
  expect(Math.abs(found[0].atS - 2)).toBeLessThan(0.02);
  expect(Math.abs(found[1].atS - 3.2)).toBeLessThan(0.02);
  // Five times the height is 14 dB; of both the noise is -60 dB re full scale.
  expect(found[0].levelDbfs - found[1].levelDbfs).toBeCloseTo(13.98, 0);
  expect(found[0].levelDbfs - found[0].overNoiseDb).toBeCloseTo(-60, 0);
});

test('noise alone has none, deep noise neither, and noise that sets in is no pop', () => {
  for (let seed = 1; seed <= 10; seed++) expect(pops({ seed }).pops).toEqual([]);
  for (let seed = 1; seed <= 10; seed++) {
    const deep = simulatedNoise({ seed });
    for (let n = 1; n < deep.length; n++) deep[n] += 0.99 * deep[n - 1];
    expect(foundPops(recordingFromArrays([deep], 16_000), 0).pops).toEqual([]);
  }
  const sets = simulatedNoise({ seconds: 8 }).map((x, n) => (n < 64_000 ? 0.05 * x : x));
  expect(foundPops(recordingFromArrays([sets], 16_000), 0).pops).toEqual([]);
});

test('a voice of a second is no pop; a pop that clips is louder than it reads', () => {
  const voice = simulatedNoise({}).map((x, n) => (n > 32_000 && n < 48_000 ? 30 * x : x));
  expect(foundPops(recordingFromArrays([voice], 16_000), 0).pops).toEqual([]);
  const loud = simulatedNoise({ pops: [1, 2, 3].map((atS) => ({ atS, peak: 4 })) }).map((x) =>
    Math.max(-1, Math.min(1, x)),
  );
  const found = foundPops(recordingFromArrays([loud], 16_000), 0);
  expect([found.pops.length, found.clipped]).toEqual([3, true]);
  expect(pops({ seconds: 3 }).problem?.code).toBe('too-short');
});
