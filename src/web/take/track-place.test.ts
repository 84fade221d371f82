import { describe, expect, test } from 'vitest';
import type { TrackDescription } from '../../signals/track.ts';
import { progressAxis, progressShare, trackPlace } from './track-place.ts';

const track: TrackDescription = {
  schema: 'kickpanel.track/1',
  kind: 'sweep',
  rateHz: 48_000,
  channels: 2,
  durationS: 10,
  segments: [
    { kind: 'silence', startS: 0, durationS: 1 },
    { kind: 'marker', side: 'both', startS: 1, durationS: 0.08, fromHz: 4000, toHz: 12_000, levelDbfs: -18 },
    { kind: 'sweep', side: 'left', startS: 2, durationS: 6, fromHz: 20, toHz: 20_000, levelDbfs: -20 },
  ],
};

describe('a moment of a track', () => {
  test('in the middle of a sweep lies at the geometric middle of its band', () => {
    const place = trackPlace(track, 5);
    expect(place.fHz).toBeCloseTo(Math.sqrt(20 * 20_000), 6);
    expect(progressShare(progressAxis(track), place, 5)).toBeCloseTo(0.5, 9);
    expect(place.stimulus).toBe(0);
  });

  test('before the sweep has no frequency and no share of the axis', () => {
    const place = trackPlace(track, 1.02);
    expect(place).toMatchObject({ fHz: null, stimulus: -1, segment: { kind: 'marker' } });
    expect(progressShare(progressAxis(track), place, 1.02)).toBeNull();
  });

  test('outside the track stays within 0 and 1', () => {
    expect([trackPlace(track, -3).share, trackPlace(track, 99).share]).toEqual([0, 1]);
  });
});

test('a track without sweeps is drawn over time', () => {
  const noise = { ...track, segments: [{ kind: 'noise', side: 'both', startS: 0, durationS: 10 }] } as TrackDescription;
  expect(progressAxis(noise)).toEqual({ kind: 'time', from: 0, to: 10 });
  expect(progressShare(progressAxis(noise), trackPlace(noise, 2.5), 2.5)).toBe(0.25);
});
