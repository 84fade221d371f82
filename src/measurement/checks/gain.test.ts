import { expect, test } from 'vitest';
import { recordingFromArrays } from '../../signals/recording.ts';
import { trackAudio } from '../../signals/track-audio.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import { readTake } from '../read-take.ts';

const STEP = 2 ** -23;

function played() {
  const designed = designTrack({ kind: 'sweep', rateHz: 48_000, side: 'both', fromHz: 40, toHz: 8000, stimulusS: 2 });
  if (!designed.ok) throw new Error(designed.issues[0].message);
  const audio = trackAudio(designed.value);
  const [left] = audio.renderBlock(0, audio.frames);
  return { track: designed.value, samples: Float64Array.from(left, (x) => Math.round(x / STEP) * STEP) };
}

const verdictOn = ({ track, samples }: ReturnType<typeof played>) =>
  readTake(recordingFromArrays([samples], 48_000, STEP), track).reading.quality.problems.map(({ message }) => message);

test('the played file itself is told as that, with no gate and no loudness that nobody heard', () => {
  const [first] = verdictOn(played());
  expect(first).toMatch(/^The recording is as silent as a file can be wherever the track is/);
});

test('a background that is there only while the track plays is a gate', () => {
  const { track, samples } = played();
  const sweep = track.segments.find(({ kind }) => kind === 'sweep');
  if (sweep?.kind !== 'sweep') throw new Error('no sweep');
  const [from, to] = [sweep.startS, sweep.startS + sweep.durationS].map((timeS) => Math.round(timeS * 48_000));
  let seed = 1;
  for (let n = from; n < to; n++) {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    samples[n] += Math.round(((seed / 2 ** 32 - 0.5) * 2e-3) / STEP) * STEP;
  }
  const messages = verdictOn({ track, samples });
  expect(messages.some((message) => /cuts quiet sound|a gate opens and shuts/.test(message))).toBe(true);
});
