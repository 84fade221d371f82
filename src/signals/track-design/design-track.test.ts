import { describe, expect, test } from 'vitest';
import { harmonicLeadS, sweepConstantS } from '../sweep.ts';
import type { MarkerSegment, SweepSegment, ToneSegment, TrackDescription } from '../track.ts';
import { trackSchema } from '../track.ts';
import { designTrack } from './design-track.ts';
import { type TrackRequest, trackKinds } from './request.ts';

/** The track of a request that must be fine. */
function track(request: Partial<TrackRequest> & Pick<TrackRequest, 'kind'>): TrackDescription {
  const designed = designTrack({ rateHz: 48_000, ...request });
  if (!designed.ok) throw new Error(JSON.stringify(designed.issues));
  return designed.value;
}

function codes(request: Partial<TrackRequest> & Pick<TrackRequest, 'kind'>): string[] {
  const designed = designTrack({ rateHz: 48_000, ...request });
  return designed.ok ? [] : designed.issues.map((issue) => `${issue.where}: ${issue.code}`);
}

const of = <T>(description: TrackDescription, kind: string): T[] =>
  description.segments.filter((segment) => segment.kind === kind) as T[];
const sweeps = (description: TrackDescription) => of<SweepSegment>(description, 'sweep');
const markers = (description: TrackDescription) => of<MarkerSegment>(description, 'marker');
const starts = (segments: { startS: number }[]) => segments.map(({ startS }) => startS);
const gaps = (times: number[]) => times.slice(1).map((time, index) => time - times[index]);

describe('a sweep', () => {
  const [sweep] = sweeps(track({ kind: 'sweep', fromHz: 20, toHz: 20_000, stimulusS: 4 }));

  test('has the length at which its harmonics are copies of it (Novak 2015): 12 cycles, 0.6 s, 4.144653167389 s', () => {
    expect(sweepConstantS(sweep)).toBeCloseTo(0.6, 12);
    expect(sweep.durationS).toBeCloseTo(4.144653167389, 11);
    expect(sweep.fromHz * sweepConstantS(sweep)).toBeCloseTo(12, 10);
  });

  test('has harmonics that lead by L ln m: 416, 659, 832, 966 ms', () => {
    const leads = [2, 3, 4, 5].map((order) => Math.round(1000 * harmonicLeadS(sweep, order)));
    expect(leads).toEqual([416, 659, 832, 966]);
  });

  test('swells over a sixth of an octave and dies over a twelfth', () => {
    expect(sweep.fadeInS).toBeCloseTo((0.6 * Math.LN2) / 6, 12);
    expect(sweep.fadeOutS).toBeCloseTo((0.6 * Math.LN2) / 12, 12);
  });

  test('has no ramp under 5 ms, however short it is', () => {
    const [short] = sweeps(track({ kind: 'sweep', fromHz: 1000, toHz: 20_000, stimulusS: 0.2 }));
    expect(short.fadeInS).toBeGreaterThanOrEqual(0.005);
    expect(short.fadeOutS).toBe(0.005);
  });

  test.each([
    ['full range', 20, 20_000, 6],
    ['a sub', 15, 200, 6],
    ['a midbass', 60, 400, 4],
    ['a mid', 300, 5000, 3],
    ['a tweeter', 2000, 20_000, 2],
  ])('over %s lasts %d..%d Hz about %d s by default', (_name, fromHz, toHz, seconds) => {
    const [one] = sweeps(track({ kind: 'sweep', fromHz, toHz }));
    // Whole cycles move the length by half a cycle's worth at most.
    expect(Math.abs(one.durationS - seconds)).toBeLessThanOrEqual((0.5 * Math.log(toHz / fromHz)) / fromHz + 1e-9);
  });

  test('plays at -20 dBFS on both sides when nothing else is said, the band as far as the rate carries it', () => {
    expect(sweeps(track({ kind: 'sweep' }))).toMatchObject([
      { side: 'both', levelDbfs: -20, fromHz: 20, toHz: 20_000 },
    ]);
    expect(sweeps(track({ kind: 'sweep', rateHz: 44_100 }))[0].toHz).toBe(19_845);
  });

  test('repeats with a rest of a second', () => {
    const repeats = sweeps(track({ kind: 'sweep', stimulusS: 1, repeats: 3 }));
    expect(repeats).toHaveLength(3);
    for (const gap of gaps(starts(repeats))) expect(gap - repeats[0].durationS).toBeCloseTo(1, 3);
  });
});

describe('markers', () => {
  test.each([
    ['left', 'right'],
    ['right', 'left'],
    ['both', 'both'],
  ] as const)('of a stimulus on %s play on %s', (side, markerSide) => {
    const description = track({ kind: 'sweep', side });
    expect(new Set(markers(description).map((marker) => marker.side))).toEqual(new Set([markerSide]));
  });

  test('start the track up, down, up and end it down, up, down: 4 to 12 kHz, 80 ms', () => {
    const found = markers(track({ kind: 'sweep' }));
    expect(found.map(({ fromHz, toHz }) => (toHz > fromHz ? 'up' : 'down'))).toEqual([
      'up',
      'down',
      'up',
      'down',
      'up',
      'down',
    ]);
    expect(found[0]).toMatchObject({ fromHz: 4000, toHz: 12_000, durationS: 0.08 });
  });

  // From descriptions of tracks that an independent program made.
  test.each([
    [17, 0.155, 0.155],
    [23, 0.185, 0.155],
    [29, 0.215, 0.155],
    [31, 0.225, 0.155],
    [47, 0.225, 0.16],
    [61, 0.215, 0.165],
    [0, 0.15, 0.15],
    [255, 0.225, 0.225],
  ])('spell the code %d in their gaps, at both ends', (code, first, second) => {
    const times = starts(markers(track({ kind: 'sweep', code })));
    const found = gaps(times);
    for (const at of [0, 3]) {
      expect(found[at]).toBeCloseTo(first, 9);
      expect(found[at + 1]).toBeCloseTo(second, 9);
    }
  });

  test('play at -18 dBFS, but never above the level of the track', () => {
    const level = (levelDbfs: number) => markers(track({ kind: 'sweep', levelDbfs }))[0].levelDbfs;
    expect([-6, -18, -20, -30].map(level)).toEqual([-18, -18, -20, -30]);
  });

  test('come at least every 30 s in a track longer than a minute, and only at the ends of a shorter one', () => {
    const long = track({ kind: 'sweep', repeats: 20 });
    expect(long.durationS).toBeGreaterThan(60);
    const groups = starts(markers(long)).filter((_, index) => index % 3 === 0);
    expect(Math.max(...gaps(groups))).toBeLessThanOrEqual(30);
    expect(markers(track({ kind: 'sweep', repeats: 2, stimulusS: 2 }))).toHaveLength(6);
  });

  test('move into the band of a driver that must play them itself', () => {
    const own = { kind: 'steps', side: 'left', markerSide: 'left', fromHz: 30, toHz: 4000 } as const;
    expect(markers(track(own))[0]).toMatchObject({ fromHz: 500, toHz: 3000, durationS: 0.12 });
    expect(markers(track({ ...own, markerSide: 'right' }))[0]).toMatchObject({ fromHz: 4000, toHz: 12_000 });
    expect(markers(track({ ...own, markerBandHz: { from: 700, to: 2800 } }))[0]).toMatchObject({ fromHz: 700 });
  });

  test('and the code are absent when none are wanted', () => {
    const bare = track({ kind: 'sweep', markerSide: 'none' });
    expect(markers(bare)).toEqual([]);
    expect(bare.code).toBeUndefined();
  });
});

describe('the track code', () => {
  test('differs between the sides of one design and stays for the same wish', () => {
    for (const kind of ['sweep', 'noise', 'tone'] as const) {
      const all = (['left', 'right', 'both'] as const).map((side) => track({ kind, side }).code);
      expect(new Set(all).size).toBe(3);
      expect(track({ kind, side: 'left' }).code).toBe(all[0]);
    }
  });

  test('follows the whole design: changing anything nearly always changes it', () => {
    const base: TrackRequest = { kind: 'sweep', rateHz: 48_000, fromHz: 25, toHz: 12_000 };
    const changed: Partial<TrackRequest>[] = [
      { fromHz: 26 },
      { toHz: 11_000 },
      { stimulusS: 3 },
      { levelDbfs: -21 },
      { repeats: 2 },
      { rateHz: 44_100 },
      { seed: 2 },
      { kind: 'near' },
    ];
    const all = changed.map((change) => track({ ...base, ...change }).code);
    expect(all.filter((code) => code === track(base).code).length).toBeLessThanOrEqual(1);
  });

  test('does not depend on whether a default was said', () => {
    expect(track({ kind: 'sweep', levelDbfs: -20, side: 'both', repeats: 1 }).code).toBe(track({ kind: 'sweep' }).code);
  });
});

describe('steps', () => {
  const levelsDbfs = [-36, -30, -24, -18, -15, -12, -9, -6];
  const steps = track({ kind: 'steps', side: 'left', fromHz: 30, toHz: 4000, stimulusS: 2.4, levelsDbfs });

  test('rise through the levels and play the first once more', () => {
    expect(sweeps(steps).map(({ levelDbfs }) => levelDbfs)).toEqual([...levelsDbfs, -36]);
  });

  test('have a marker of one low level before each', () => {
    const before = sweeps(steps).map((sweep) => {
      const earlier = markers(steps).filter(({ startS }) => startS < sweep.startS);
      return earlier[earlier.length - 1];
    });
    expect(new Set(before.map(({ levelDbfs }) => levelDbfs))).toEqual(new Set([-30]));
    for (const [index, marker] of before.entries()) {
      expect(sweeps(steps)[index].startS - marker.startS).toBeCloseTo(0.58, 3);
    }
  });

  test('rest 1 s, and 3 s before the last three levels', () => {
    const found = sweeps(steps);
    const rests = gaps(starts(found)).map((gap) => gap - found[0].durationS - 0.58);
    const want = [1, 1, 1, 1, 3, 3, 3, 1];
    for (const [index, rest] of rests.entries()) expect(rest).toBeCloseTo(want[index], 3);
  });

  test('end at the level of the track when no levels are given: 24, 20, 16, 12, 9, 6, 3, 0 dB under it', () => {
    const found = sweeps(track({ kind: 'steps', levelDbfs: -10, stimulusS: 1 }));
    expect(found.map(({ levelDbfs }) => levelDbfs)).toEqual([-34, -30, -26, -22, -19, -16, -13, -10, -34]);
  });
});

test('near plays the same sweep left, then right, with its markers on both sides', () => {
  const near = track({ kind: 'near' });
  const [left, right] = sweeps(near);
  expect([left.side, right.side]).toEqual(['left', 'right']);
  expect({ ...left, side: 'right', startS: right.startS }).toEqual(right);
  expect(markers(near).every(({ side }) => side === 'both')).toBe(true);
});

describe('pair', () => {
  const order = (description: TrackDescription) =>
    description.segments.slice(1).map((segment) => `${segment.kind} ${(segment as MarkerSegment).side}`);

  test('plays markers left, right, left, right, rising groups first', () => {
    const pair = track({ kind: 'pair', code: 31 });
    const three = (side: string) => Array(3).fill(`marker ${side}`);
    expect(order(pair)).toEqual([...three('left'), ...three('right'), ...three('left'), ...three('right')]);
    const rising = markers(pair).map(({ fromHz, toHz }) => toHz > fromHz);
    expect(rising).toEqual([1, 0, 1, 1, 0, 1, 0, 1, 0, 0, 1, 0].map(Boolean));
  });

  test('adds a sweep on each side for drivers below the markers', () => {
    const low = track({ kind: 'pair', fromHz: 60, toHz: 500 });
    expect(sweeps(low).map(({ side }) => side)).toEqual(['left', 'right']);
    expect(markers(low)).toHaveLength(12);
  });
});

test('noise is pink, periodic and lasts four periods', () => {
  const [noise] = of<Record<string, unknown>>(track({ kind: 'noise', relation: 'opposite' }), 'noise');
  expect(noise).toMatchObject({
    spectrum: 'pink',
    periodSamples: 131_072,
    relation: 'opposite',
    seed: 1,
    side: 'both',
  });
  expect(Number(noise.durationS) * 48_000).toBeCloseTo(4 * 131_072, 6);
  const [fast] = of<Record<string, unknown>>(track({ kind: 'noise', rateHz: 96_000 }), 'noise');
  expect(fast.periodSamples).toBe(262_144);
});

describe('tones', () => {
  test('turn a whole number of times in 8192 samples', () => {
    const tones = of<ToneSegment>(track({ kind: 'tone', tonesHz: [50, 1000, 3150] }), 'tone');
    // 9, 171 and 538 turns (50, 1000 and 3150 Hz ask for 8.53, 170.67 and 537.6).
    expect(tones.map(({ fHz }) => fHz)).toEqual([52.734375, 1001.953125, 3152.34375]);
    expect(
      tones.every(({ durationS, fadeInS, fadeOutS }) => [durationS, fadeInS, fadeOutS].join() === '20,0.05,0.05'),
    ).toBe(true);
  });

  test('may reach full scale, which sweeps and noise may not', () => {
    expect(of<ToneSegment>(track({ kind: 'tone', levelDbfs: 0 }), 'tone')[0].levelDbfs).toBe(0);
    expect(codes({ kind: 'sweep', levelDbfs: -0.5 })).toEqual(['levelDbfs: level-over-ceiling']);
    expect(codes({ kind: 'noise', levelDbfs: -2.5 })).toEqual(['levelDbfs: level-over-ceiling']);
    expect(codes({ kind: 'sweep', levelDbfs: -1 })).toEqual([]);
    expect(codes({ kind: 'noise', levelDbfs: -3 })).toEqual([]);
  });

  test('of a ladder stay the same while a hand turns the volume up, or rise by themselves', () => {
    const byHand = of<ToneSegment>(track({ kind: 'ladder', levelDbfs: 0 }), 'tone');
    expect(byHand.map(({ levelDbfs }) => levelDbfs)).toEqual(Array(12).fill(0));
    for (const gap of gaps(starts(byHand).slice(0, 3))) expect(gap).toBeCloseTo(4, 6);
    const risen = of<ToneSegment>(track({ kind: 'ladder', levelsDbfs: [-12, -11, -10], tonesHz: [1000, 40] }), 'tone');
    expect(risen.map(({ levelDbfs }) => levelDbfs)).toEqual([-12, -12, -11, -11, -10, -10]);
    expect(risen.map(({ rung }) => rung)).toEqual([1, 1, 2, 2, 3, 3]);
  });
});

describe('pulses', () => {
  const pulses = of<Record<string, number> & { pulseStartsS: number[] }>(
    track({ kind: 'polarity', fromHz: 300, toHz: 3000 }),
    'pulses',
  );

  test('are eight at irregular distances of 180 to 320 ms, then the same upside down', () => {
    expect(pulses.map(({ sign }) => sign)).toEqual([1, -1]);
    expect(pulses[0].pulseStartsS).toEqual(pulses[1].pulseStartsS);
    const found = gaps(pulses[0].pulseStartsS);
    expect(found).toHaveLength(7);
    expect(new Set(found).size).toBe(7);
    for (const gap of found) expect(gap > 0.1799 && gap < 0.3201).toBe(true);
  });

  test('are as wide as half a turn of the middle of the band, with a tail ten times as wide', () => {
    // 1 / (2 sqrt(300 x 3000)) s is 25.3 samples.
    expect(pulses[0].widthS * 48_000).toBeCloseTo(25, 9);
    expect(pulses[0].tailWidthS).toBeCloseTo(10 * pulses[0].widthS, 12);
  });

  test('of a low band keep clear of each other', () => {
    const [low] = of<{ pulseStartsS: number[]; tailWidthS: number; widthS: number }>(
      track({ kind: 'polarity', fromHz: 10, toHz: 40 }),
      'pulses',
    );
    expect(Math.min(...gaps(low.pulseStartsS))).toBeGreaterThan(low.widthS + low.tailWidthS);
  });
});

describe('bursts', () => {
  interface Blip {
    output: number;
    fromHz: number;
    toHz: number;
    durationS: number;
  }
  const blips = (request: Partial<TrackRequest>, output: number) =>
    of<Blip>(track({ kind: 'bursts', ...request }), 'blip').filter((blip) => blip.output === output);

  test('count the outputs in blips, a long one for five', () => {
    const lengths = (output: number) => blips({ outputs: 12 }, output).map(({ durationS }) => durationS);
    expect([1, 3, 5].map((output) => lengths(output).length)).toEqual([1, 3, 5]);
    expect(lengths(7)).toEqual([0.48, 0.12, 0.12]);
    expect(lengths(12)).toEqual([0.48, 0.48, 0.12, 0.12]);
  });

  test('fall at the end for the left and rise a fifth for the right', () => {
    const last = (side: 'left' | 'right' | 'both') => blips({ side }, 2)[1];
    expect(last('right').toHz / last('right').fromHz).toBeCloseTo(1.5, 9);
    expect(last('left').toHz / last('left').fromHz).toBeCloseTo(1 / 1.5, 9);
    expect(last('both').toHz).toBe(last('both').fromHz);
    expect(blips({ side: 'left' }, 2)[0].toHz).toBe(blips({ side: 'left' }, 2)[0].fromHz);
  });

  test('into unproven leads are one octave around 2 kHz and never above -30 dBFS', () => {
    for (const levelDbfs of [undefined, -12]) {
      const noise = of<Record<string, number>>(track({ kind: 'bursts', levelDbfs }), 'noise');
      expect(noise).toHaveLength(8);
      for (const { fromHz, toHz, levelDbfs: level } of noise) {
        expect(Math.sqrt(fromHz * toHz)).toBeCloseTo(2000, 6);
        expect(toHz / fromHz).toBeCloseTo(2, 9);
        expect(level).toBe(-30);
      }
    }
  });

  test('into proven leads take the band of each driver, an octave and a half, and their own noise', () => {
    const noise = of<Record<string, number>>(track({ kind: 'bursts', tonesHz: [50, 150, 1000, 6000] }), 'noise');
    expect(noise.map(({ fromHz, toHz }) => Math.round(Math.sqrt(fromHz * toHz)))).toEqual([50, 150, 1000, 6000]);
    for (const { fromHz, toHz } of noise) expect(Math.log2(toHz / fromHz)).toBeCloseTo(1.5, 9);
    expect(new Set(noise.map(({ seed }) => seed)).size).toBe(4);
  });
});

describe('every track', () => {
  test('of every kind and rate is valid and starts with the silence in which the background is measured', () => {
    for (const kind of trackKinds) {
      for (const rateHz of [44_100, 48_000, 96_000]) {
        const description = track({ kind, rateHz });
        expect(trackSchema.parse(description)).toEqual(description);
        expect(description.segments[0]).toMatchObject({ kind: 'silence', startS: 0 });
      }
    }
  });

  test('listens 2 s to the background where it plays below 40 Hz, else 1 s', () => {
    const preroll = (request: Partial<TrackRequest> & Pick<TrackRequest, 'kind'>) =>
      track(request).segments[0].durationS;
    expect(preroll({ kind: 'sweep', fromHz: 39 })).toBe(2);
    expect(preroll({ kind: 'sweep', fromHz: 40 })).toBe(1);
    expect(preroll({ kind: 'tone', tonesHz: [1000, 30] })).toBe(2);
    expect(preroll({ kind: 'tone', tonesHz: [1000, 50] })).toBe(1);
  });
});

describe('a wish is refused', () => {
  test.each<[string, Partial<TrackRequest> & Pick<TrackRequest, 'kind'>, string[]]>([
    ['when its kind does not exist', { kind: 'hum' as 'tone' }, ['kind: unknown-kind']],
    ['at a rate no player takes', { kind: 'sweep', rateHz: 12_345 }, ['rateHz: rate-unsupported']],
    ['when its band does not rise', { kind: 'sweep', fromHz: 500, toHz: 500 }, ['toHz: band-reversed']],
    ['when its band leaves no room to fade', { kind: 'near', fromHz: 500, toHz: 600 }, ['toHz: band-too-narrow']],
    ['above 0.45 of the rate', { kind: 'sweep', rateHz: 44_100, toHz: 19_846 }, ['toHz: above-the-rate']],
    ['with no time', { kind: 'sweep', stimulusS: 0 }, ['stimulusS: out-of-range']],
    ['with no repeat', { kind: 'sweep', repeats: 0 }, ['repeats: out-of-range']],
    ['with half a repeat', { kind: 'sweep', repeats: 1.5 }, ['repeats: out-of-range']],
    ['when a number is none', { kind: 'sweep', levelDbfs: Number.NaN }, ['levelDbfs: out-of-range']],
    ['when its levels fall', { kind: 'steps', levelsDbfs: [-12, -18] }, ['levelsDbfs: levels-not-rising']],
    ['with one level', { kind: 'steps', levelsDbfs: [-12] }, ['levelsDbfs: levels-count']],
    [
      'when its levels pass its own level',
      { kind: 'steps', levelsDbfs: [-20, -10], levelDbfs: -15 },
      ['levelsDbfs: levels-over-level'],
    ],
    [
      'when its levels pass the ceiling',
      { kind: 'steps', levelsDbfs: [-6, 0] },
      ['levelDbfs: level-over-ceiling', 'levelsDbfs: level-over-ceiling'],
    ],
    ['when it means something the kind cannot do', { kind: 'sweep', tonesHz: [50] }, ['tonesHz: not-for-this-kind']],
    ['when near is to play one side', { kind: 'near', side: 'left' }, ['side: needs-both-sides']],
    [
      'when a pair has its markers on one side',
      { kind: 'pair', markerSide: 'left' },
      ['markerSide: markers-need-both-sides'],
    ],
    ['when a pair would be silent', { kind: 'pair', markerSide: 'none' }, ['markerSide: nothing-to-play']],
    [
      'when one side is to be independent of itself',
      { kind: 'noise', side: 'left', relation: 'independent' },
      ['relation: relation-needs-both-sides'],
    ],
    [
      'when its markers would time badly',
      { kind: 'sweep', markerBandHz: { from: 1000, to: 1500 } },
      ['markerBandHz: marker-band'],
    ],
    ['with a code of nine bits', { kind: 'sweep', code: 256 }, ['code: out-of-range']],
    [
      'when tones and outputs do not match',
      { kind: 'bursts', tonesHz: [50, 150], outputs: 3 },
      ['tonesHz: tones-count'],
    ],
    ['when it would last longer than half an hour', { kind: 'sweep', repeats: 300 }, ['stimulusS: track-too-long']],
  ])('%s', (_name, request, issues) => {
    expect(codes(request)).toEqual(issues);
  });

  test('with every broken rule at once, in sentences with a way to mend each', () => {
    const designed = designTrack({ kind: 'sweep', rateHz: 48_000, fromHz: 300, toHz: 200, repeats: 0, levelDbfs: 3 });
    expect(designed.ok ? [] : designed.issues.map(({ code }) => code)).toEqual([
      'band-reversed',
      'level-over-ceiling',
      'out-of-range',
    ]);
    for (const { message, mend } of designed.ok ? [] : designed.issues) {
      expect(message).toMatch(/^[A-Z].*\.$/);
      expect(mend).toMatch(/^[A-Z].*\.$/);
    }
  });

  test('without taking long, even if it asks for a thousand minutes', () => {
    const before = performance.now();
    expect(codes({ kind: 'steps', repeats: 1000, stimulusS: 600 })).toEqual(['stimulusS: track-too-long']);
    expect(performance.now() - before).toBeLessThan(500);
  });
});
