import { describe, expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { recordingFromArrays } from '../signals/recording.ts';
import { exponentialSweep } from '../signals/sweep.ts';
import type { SweepSegment, TrackDescription } from '../signals/track.ts';
import { withDriftFromRepeats } from './drift-from-repeats.ts';
import type { Located } from './locate-track.ts';

const RATE_HZ = 16_000;
const sweep = (startS: number, change: Partial<SweepSegment> = {}): SweepSegment => ({
  kind: 'sweep',
  side: 'left',
  startS,
  durationS: 0.8,
  fromHz: 100,
  toHz: 6000,
  levelDbfs: -6,
  ...change,
});
const trackOf = (segments: SweepSegment[]): TrackDescription => ({
  schema: 'kickpanel.track/1',
  kind: 'sweep',
  rateHz: RATE_HZ,
  channels: 1,
  durationS: 4,
  segments,
});
const START = 3000.4;

/** The sweeps through a direct sound and two echoes, recorded by a clock `ppm` long. */
function recorded(track: TrackDescription, ppm: number, echoOf: (sweep: number) => number = () => 1) {
  const slope = 1 + ppm * 1e-6;
  const samples = Float64Array.from({ length: 5 * RATE_HZ }, (_, n) => 0.0005 * gauss(2, n));
  track.segments.forEach((segment, i) => {
    for (const [echoS, gain] of [
      [0, echoOf(i)],
      [0.0021, 0.7],
      [0.0063, -0.5],
    ]) {
      const position = START + slope * (Math.round(segment.startS * RATE_HZ) + echoS * RATE_HZ);
      const first = Math.ceil(position);
      const offsetS = (first - position) / (RATE_HZ * slope);
      const heard = exponentialSweep(segment as SweepSegment, RATE_HZ * slope, { offsetS, trackRateHz: RATE_HZ });
      heard.forEach((value, n) => {
        samples[first + n] += gain * value;
      });
    }
  });
  return recordingFromArrays([samples], RATE_HZ);
}

/** As a search by sweeps leaves it: the place roughly right, the clock unknown. */
function located(offset = START): Located {
  return {
    how: 'sweeps',
    channel: 0,
    ratio: 1,
    slope: 1,
    offset,
    effectiveRateHz: RATE_HZ,
    driftPpm: null,
    driftSigmaPpm: null,
    kinds: [],
    markers: [],
    match: { matched: [], groupsFound: [], groupCount: 0, score: 0, displaced: [] },
    fit: null,
    coded: [],
    sweepPlace: { offset, clearness: 100, each: [100, 100] },
    score: 0.1,
  };
}

const twice = trackOf([sweep(0.2), sweep(2.5)]);

describe('a sweep that is played twice tells the clock', () => {
  test.each([0, 12, -61, 120, 500])('of %f ppm within the sigma it states, 1.4 ppm', (ppm) => {
    const found = withDriftFromRepeats(recorded(twice, ppm), located(), twice);
    expect(Math.abs((found.driftPpm as number) - ppm)).toBeLessThan(found.driftSigmaPpm as number);
    expect(found.driftSigmaPpm).toBeCloseTo(1.36, 2);
    expect((found.slope - 1) * 1e6).toBeCloseTo(found.driftPpm as number, 6);
    expect(found.effectiveRateHz).toBeCloseTo(RATE_HZ * found.slope, 9);
    // The line turns about the first sweep: that one stays where it was found.
    expect(found.slope * 3200 + found.offset).toBeCloseTo(START + 3200, 6);
  });

  test('by the two that lie furthest apart', () => {
    const thrice = trackOf([sweep(0.2), sweep(1.3), sweep(2.5)]);
    const found = withDriftFromRepeats(recorded(thrice, 40), located(), thrice);
    expect(Math.abs((found.driftPpm as number) - 40)).toBeLessThan(1);
    expect(found.driftSigmaPpm).toBeCloseTo((0.05 / (2.3 * RATE_HZ)) * 1e6, 9);
  });

  test('whatever the level of either', () => {
    const rising = trackOf([sweep(0.2, { levelDbfs: -26 }), sweep(2.5)]);
    const found = withDriftFromRepeats(recorded(rising, 40), located(), rising);
    expect(Math.abs((found.driftPpm as number) - 40)).toBeLessThan(1);
  });
});

describe('the clock stays unknown', () => {
  test('where the plays lie further apart than clocks do: sound was lost or doubled between them', () => {
    const found = withDriftFromRepeats(recorded(twice, -2000), located(), twice);
    expect(found.driftPpm).toBeNull();
    // 2.3 s between the plays, short by two thousandths.
    expect(found.addedS).toBeCloseTo(-0.0046, 5);
    expect(found.slope).toBe(1);
  });

  const unchanged = (track: TrackDescription, recording = recorded(track, 40)): void => {
    const before = located();
    expect(withDriftFromRepeats(recording, before, track)).toEqual(before);
  };

  test('where no sweep repeats: one alone, or two of different sides or bands', () => {
    unchanged(trackOf([sweep(0.2)]));
    unchanged(trackOf([sweep(0.2), sweep(2.5, { side: 'right' })]));
    unchanged(trackOf([sweep(0.2), sweep(2.5, { toHz: 5000 })]));
    unchanged(trackOf([]));
  });

  test('where the two sound unlike: another driver played the second', () => {
    // What is a direct sound in one is missing in the other and turned over.
    unchanged(
      twice,
      recorded(twice, 40, (i) => (i === 0 ? 1 : -1.5)),
    );
  });

  test('where nothing was recorded', () => {
    unchanged(twice, recordingFromArrays([new Float64Array(5 * RATE_HZ)], RATE_HZ));
  });
});
