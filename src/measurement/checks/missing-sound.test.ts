import { expect, test } from 'vitest';
import { goodTakes } from '../../../test/laws/good-takes.ts';
import { recordingFromArrays } from '../../signals/recording.ts';
import { readTake } from '../read-take.ts';

const [take] = goodTakes;

/** Problems of the take after `change`; its sweep begins at 1.3 s and rises from 50 Hz to 4 kHz in 0.7 s. */
function problemsAfter(change: (samples: Float64Array) => void): string[] {
  const samples = take.samples.slice();
  change(samples);
  const { reading } = readTake(recordingFromArrays([samples], take.rateHz), take.track);
  return reading.quality.problems.map(({ code }) => code);
}

const quiet = (samples: Float64Array, fromS: number, toS: number): void => {
  const [from, to] = [fromS * take.rateHz, toS * take.rateHz].map(Math.round);
  // The background itself, from before the track.
  for (let n = from; n < to; n++) samples[n] = samples[n - from];
};

test.each([
  ['within the sweep', 1.45, 1.5],
  ['up to its end', 1.55, 2.1],
])('background in place of sound %s is sound that is missing', (_, fromS, toS) => {
  expect(problemsAfter((samples) => quiet(samples, fromS, toS))).toEqual(['zero-fill']);
});

test('zeros for longer than any buffer are missing sound too', () => {
  expect(problemsAfter((samples) => samples.fill(0, 1.37 * take.rateHz, 1.7 * take.rateHz))).toEqual(['zero-fill']);
});

test('the whole take misses nothing', () => {
  expect(problemsAfter(() => {})).toEqual([]);
});

test.each([1, 2, 3, 5, 8])('a null that the sweep runs through fast is no missing sound: a path %d ms longer', (ms) => {
  const longer = Math.round((ms / 1000) * take.rateHz);
  const found = problemsAfter((samples) => {
    for (let n = samples.length - 1; n >= longer; n--) samples[n] += 0.99 * samples[n - longer];
  });
  expect(found).not.toContain('zero-fill');
});
