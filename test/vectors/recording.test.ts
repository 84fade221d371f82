import { expect, test } from 'vitest';
import { readTake } from '../../src/measurement/read-take.ts';
import { sweepConstantS, synchronisedDurationS } from '../../src/signals/sweep.ts';
import { type TrackDescription, trackSchema } from '../../src/signals/track.ts';
import vectors from './recording.json' with { type: 'json' };
import { recordingFile } from './recording-file.ts';

/** The track all cases play, with the code its marker gaps spell; see `about` in the vectors. */
function trackWith(code: number): TrackDescription {
  const gapsS = [0.15 + 0.005 * (code % 16), 0.15 + 0.005 * Math.floor(code / 16)];
  const group = (startS: number, rising: boolean[]) =>
    rising.map((up, i) => ({
      kind: 'marker',
      side: 'both',
      startS: startS + gapsS.slice(0, i).reduce((sum, gapS) => sum + gapS, 0),
      durationS: 0.08,
      fromHz: up ? 2000 : 8000,
      toHz: up ? 8000 : 2000,
      levelDbfs: 20 * Math.log10(0.25),
    }));
  const sweep = { fromHz: 60, toHz: 9000, durationS: synchronisedDurationS(60, 9000, 1.1) };
  const octaveS = sweepConstantS(sweep) * Math.LN2;
  return trackSchema.parse({
    schema: 'kickpanel.track/1',
    kind: 'sweep',
    rateHz: 24_000,
    channels: 1,
    durationS: 3.5,
    code,
    segments: [
      { kind: 'silence', startS: 0, durationS: 0.5 },
      ...group(0.5, [true, false, true]),
      {
        kind: 'sweep',
        side: 'both',
        startS: 1.35,
        ...sweep,
        levelDbfs: 20 * Math.log10(0.5),
        fadeInS: octaveS / 6,
        fadeOutS: octaveS / 12,
      },
      ...group(2.75, [false, true, false]),
    ],
  });
}

test.each(vectors.cases)('recording $id has what was planted, $must_flag, and nothing else', (vector) => {
  const { reading } = readTake(recordingFile(vector.wav), trackWith(vector.expected_code));
  const raised = reading.quality.problems.map(({ code }) => code as string);
  expect(raised).toEqual(expect.arrayContaining(vector.must_flag));
  const allowed: string[] = [...vector.must_flag, ...vector.may_also_flag];
  expect(raised.filter((code) => !allowed.includes(code))).toEqual([]);
  for (const { message, mend } of reading.quality.problems) {
    expect(message.length).toBeGreaterThan(20);
    expect(mend.length).toBeGreaterThan(20);
  }
});
