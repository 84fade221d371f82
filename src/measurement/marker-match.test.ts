import { describe, expect, test } from 'vitest';
import { uniform } from '../base/random.ts';
import type { MarkerSegment, Side, TrackDescription, TrackSegment } from '../signals/track.ts';
import { codedGroups, codeOfGaps, markerKinds, matchMarkers } from './marker-match.ts';
import type { ChirpPeak } from './marker-search.ts';

const RATE_HZ = 48_000;

function marker(startS: number, rising: boolean, side: Side = 'right', levelDbfs = -18): MarkerSegment {
  const [fromHz, toHz] = rising ? [4000, 12_000] : [12_000, 4000];
  return { kind: 'marker', side, startS, durationS: 0.08, fromHz, toHz, levelDbfs };
}

/** Opening group up, down, up and closing group down, up, down, spelling `code`. */
function groups(code: number, startsS: [number, boolean][]): MarkerSegment[] {
  const gapsS = [0, 0.15 + 0.005 * (code % 16), 0.15 + 0.005 * Math.floor(code / 16)];
  return startsS.flatMap(([startS, rising]) => {
    const secondS = startS + gapsS[1];
    return [marker(startS, rising), marker(secondS, !rising), marker(secondS + gapsS[2], rising)];
  });
}

function trackOf(segments: TrackSegment[]): TrackDescription {
  return { schema: 'kickpanel.track/1', kind: 'sweep', rateHz: RATE_HZ, channels: 2, durationS: 20, segments };
}

/** What a search would find of a track's markers in a recording that starts `offsetS` before it. */
function heard(track: TrackDescription, offsetS: number, movedS: (group: number) => number = () => 0): ChirpPeak[][] {
  const { kinds, markers } = markerKinds(track);
  return kinds.map((_, kind) =>
    markers
      .filter((one) => one.kind === kind)
      .map(({ timeS, group }) => ({
        position: (timeS + offsetS + movedS(group)) * RATE_HZ,
        score: 0.8,
        amplitude: 0.1,
      }))
      .sort((a, b) => a.position - b.position),
  );
}

describe('a track code', () => {
  test('is read back from the gaps that spell it, all 256', () => {
    for (let code = 0; code < 256; code++) {
      expect(codeOfGaps(0.15 + 0.005 * (code % 16), 0.15 + 0.005 * Math.floor(code / 16))).toBe(code);
    }
  });

  test('bears 0.3 of a step of error in each gap and no more', () => {
    expect(codeOfGaps(0.155 + 0.0014, 0.16 - 0.0014)).toBe(1 + 16 * 2);
    expect(codeOfGaps(0.155 + 0.0016, 0.16)).toBeNull();
    expect(codeOfGaps(0.155, 0.16 - 0.0016)).toBeNull();
  });

  test('ends with the sixteenth step on either side', () => {
    expect(codeOfGaps(0.225, 0.15)).toBe(15);
    expect(codeOfGaps(0.23, 0.15)).toBeNull();
    expect(codeOfGaps(0.145, 0.15)).toBeNull();
    expect(codeOfGaps(0.15, 0.23)).toBeNull();
  });
});

describe('the markers of a track', () => {
  const track = trackOf([...groups(52, [[1, true]]), ...groups(52, [[9, false]])]);

  test('share a shape whatever their level, and stand in order of time', () => {
    const louder = trackOf([marker(9, true, 'right', -6), marker(1, true), marker(1.2, false)]);
    const { kinds, markers } = markerKinds(louder);
    expect(kinds.length).toBe(2);
    expect(markers.map(({ timeS, kind }) => [timeS, kind])).toEqual([
      [1, 0],
      [1.2, 1],
      [9, 0],
    ]);
  });

  test('form groups: a pause, another side or another level begins a new one', () => {
    const groupsOf = (segments: TrackSegment[]): number[] => markerKinds(trackOf(segments)).markers.map((m) => m.group);
    expect(groupsOf([marker(1, true), marker(1.599, false)])).toEqual([0, 0]);
    expect(groupsOf([marker(1, true), marker(1.601, false)])).toEqual([0, 1]);
    expect(groupsOf([marker(1, true), marker(1.2, false, 'left')])).toEqual([0, 1]);
    expect(groupsOf([marker(1, true), marker(1.2, false, 'right', -12)])).toEqual([0, 1]);
  });

  test('are none in a track without', () => {
    expect(markerKinds(trackOf([{ kind: 'silence', startS: 0, durationS: 1 }]))).toEqual({ kinds: [], markers: [] });
  });

  test('are all found where they sound, whenever the recording began', () => {
    const { markers } = markerKinds(track);
    for (const offsetS of [-0.9, 0, 3.7]) {
      const match = matchMarkers(markers, heard(track, offsetS), RATE_HZ);
      expect(match.matched.length).toBe(6);
      expect(match.groupsFound).toEqual([0, 1]);
      expect(match.displaced).toEqual([]);
      expect(match.score).toBeCloseTo(6 * 0.8, 9);
      match.matched.forEach(({ marker: expected, peak }) => {
        expect(peak.position / RATE_HZ).toBeCloseTo(expected.timeS + offsetS, 9);
      });
    }
  });

  test('are found among fifty weaker sounds that are none', () => {
    const { markers } = markerKinds(track);
    const peaks = heard(track, 2).map((list, kind) =>
      [
        ...list,
        ...Array.from({ length: 50 }, (_, n) => ({
          position: 20 * RATE_HZ * uniform(7 + kind, n),
          score: 0.35,
          amplitude: 0.05,
        })),
      ].sort((a, b) => a.position - b.position),
    );
    const match = matchMarkers(markers, peaks, RATE_HZ);
    expect(match.matched.map(({ peak }) => peak.score)).toEqual([0.8, 0.8, 0.8, 0.8, 0.8, 0.8]);
  });

  test('of a group that was lost are not made up', () => {
    const { markers } = markerKinds(track);
    const peaks = heard(track, 2).map((list) => list.filter(({ position }) => position < 8 * RATE_HZ));
    const match = matchMarkers(markers, peaks, RATE_HZ);
    expect(match.groupsFound).toEqual([0]);
    expect(match.matched.length).toBe(3);
    expect(match.displaced).toEqual([]);
  });

  test('of a group that comes 0.3 s too early are displaced by that', () => {
    const { markers } = markerKinds(track);
    const moved = heard(track, 2, (group) => (group === 1 ? -0.3 : 0));
    const { displaced, groupsFound } = matchMarkers(markers, moved, RATE_HZ);
    expect(groupsFound.length).toBe(1);
    expect(displaced.length).toBe(1);
    // Either group may be the one that counts as right; the distance between the two is what is wrong.
    expect(displaced[0].byS).toBeCloseTo(displaced[0].group === 1 ? -0.3 : 0.3, 6);
  });

  test('bear clocks that differ by 0.3 %', () => {
    const { markers } = markerKinds(track);
    const stretched = heard(track, 0).map((list) =>
      list.map((peak) => ({ ...peak, position: peak.position * 1.003 + 48_000 })),
    );
    expect(matchMarkers(markers, stretched, RATE_HZ).groupsFound).toEqual([0, 1]);
  });

  test('of no track, or in a silent recording, are none', () => {
    const none = { matched: [], groupsFound: [], score: 0, displaced: [] };
    expect(matchMarkers([], [], RATE_HZ)).toEqual({ ...none, groupCount: 0 });
    expect(matchMarkers(markerKinds(track).markers, [[], []], RATE_HZ)).toEqual({ ...none, groupCount: 2 });
  });
});

describe('groups that spell a code', () => {
  const peaks = heard(trackOf([...groups(52, [[1, true]]), ...groups(200, [[9, false]])]), 0.5);

  test('are found whatever track they belong to, opening and closing told apart', () => {
    expect(codedGroups(peaks, 0, 1, RATE_HZ).map(({ code, end }) => [code, end])).toEqual([
      [52, false],
      [200, true],
    ]);
    expect(codedGroups(peaks, 0, 1, RATE_HZ)[0].timeS).toBeCloseTo(1.5, 9);
  });

  test('need all three of their chirps, each as clear as a seed must be', () => {
    const weakened = peaks.map((list, kind) => list.map((peak) => (kind === 1 ? { ...peak, score: 0.179 } : peak)));
    expect(codedGroups(weakened, 0, 1, RATE_HZ)).toEqual([]);
    expect(codedGroups([[], []], 0, 1, RATE_HZ)).toEqual([]);
  });
});
