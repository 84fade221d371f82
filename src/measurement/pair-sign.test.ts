import { expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { recordingFromArrays } from '../signals/recording.ts';
import type { NoiseSegment } from '../signals/track.ts';
import { trackAudio } from '../signals/track-audio.ts';
import { designTrack } from '../signals/track-design/design-track.ts';
import { pairSign } from './pair-sign.ts';
import { readTake } from './read-take.ts';

const bands = { fHz: [50, 63, 80, 100, 125, 160], levelDb: [0, 0, 0, 0, 0, 0] as (number | null)[] };
const noise = (relation: NoiseSegment['relation'], levelDb: number | null, more: Partial<NoiseSegment> = {}) => ({
  segment: { kind: 'noise', side: 'both', startS: 0, durationS: 9, levelDbfs: -12, relation, ...more } as NoiseSegment,
  bands: { ...bands, levelDb: bands.levelDb.map((_, i) => (levelDb === null && i > 2 ? null : (levelDb ?? 0))) },
});

test('the louder of the two tells the sign from 5 dB on', () => {
  expect(pairSign([noise('same', -20), noise('opposite', -25)])).toMatchObject({ sign: 1, sameOverOppositeDb: 5 });
  expect(pairSign([noise('opposite', -20), noise('same', -26)])?.sign).toBe(-1);
  expect(pairSign([noise('same', -20), noise('opposite', -24.9)])?.sign).toBe(0);
});

test('too few bands cannot say; other levels, one side or one relation alone say nothing', () => {
  expect(pairSign([noise('same', -20), noise('opposite', null)])).toMatchObject({ sign: 0, sameOverOppositeDb: null });
  expect(pairSign([noise('same', -20), noise('opposite', -20, { levelDbfs: -6 })])).toBeNull();
  expect(pairSign([noise('same', -20, { side: 'left' }), noise('opposite', -30)])).toBeNull();
  expect(pairSign([noise('same', -20), noise('independent', -30)])).toBeNull();
});

/** Two drivers at one place and a seat 0.6 ms nearer to the left one; `right` is the sign of the other. */
function taken(right: 1 | -1) {
  const designed = designTrack({
    kind: 'noise',
    rateHz: 32_000,
    relation: 'both',
    fromHz: 40,
    toHz: 400,
    stimulusS: 5,
  });
  if (!designed.ok) throw new Error(designed.issues[0].message);
  const track = designed.value;
  const audio = trackAudio(track);
  const [one, other] = audio.renderBlock(0, audio.frames);
  const samples = Float64Array.from(
    { length: audio.frames + 32_000 },
    (_, n) => 0.3 * (one[n - 9000] ?? 0) + 0.25 * right * (other[n - 9019] ?? 0) + 1e-5 * gauss(4, n),
  );
  return readTake(recordingFromArrays([samples], 32_000, 2 ** -23), track).reading;
}

test('a track of both is read: a pair that is wired alike, and one that is not', () => {
  const alike = taken(1);
  expect(alike.quality.usable).toBe(true);
  expect(alike.pairSign?.sign).toBe(1);
  expect(alike.stimuli?.map(({ relation }) => relation)).toEqual(['same', 'opposite']);
  // What both sides give together is that of the same noise alone.
  expect(alike.bands).toEqual(alike.stimuli?.[0].bands);
  expect(taken(-1).pairSign?.sign).toBe(-1);
}, 60_000);
