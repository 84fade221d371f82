import { expect, test } from 'vitest';
import { trackSchema } from './track.ts';
import { silentRanges } from './track-silence.ts';

const track = trackSchema.parse({
  schema: 'kickpanel.track/1',
  kind: 'test',
  rateHz: 8000,
  channels: 2,
  durationS: 3,
  segments: [
    { kind: 'silence', startS: 0, durationS: 1 },
    { kind: 'tone', side: 'left', startS: 1, durationS: 0.5, fHz: 1000, levelDbfs: -20 },
    { kind: 'tone', side: 'right', startS: 1.25, durationS: 0.5, fHz: 1000, levelDbfs: -20 },
    { kind: 'marker', side: 'right', startS: 1.76, durationS: 0.04, fromHz: 500, toHz: 2000, levelDbfs: -20 },
    { kind: 'sweep', side: 'both', startS: 2, durationS: 0.5, fromHz: 100, toHz: 2000, levelDbfs: -20 },
  ],
});

test('silence lies before, between and after the sounds, a sweep counting its last sample', () => {
  expect(silentRanges(track, 0.05)).toEqual([
    { startFrame: 0, frames: 8000 },
    { startFrame: 14_400, frames: 1600 },
    { startFrame: 20_001, frames: 3999 },
  ]);
});

test('a rest shorter than asked for is not silence', () => {
  expect(silentRanges(track, 0.3).map(({ startFrame }) => startFrame)).toEqual([0, 20_001]);
  expect(silentRanges(track, 0.01)).toHaveLength(4);
});
