// What holds for every track that can be asked for, tried on wishes made by seeded chance.
import { describe, expect, test } from 'vitest';
import { amplitudeFromDb } from '../../src/base/decibel.ts';
import { uniform } from '../../src/base/random.ts';
import type { MarkerSegment, TrackDescription, TrackSegment } from '../../src/signals/track.ts';
import { trackSchema } from '../../src/signals/track.ts';
import { trackAudio } from '../../src/signals/track-audio.ts';
import { designTrack } from '../../src/signals/track-design/design-track.ts';
import { kindTraits, type TrackRequest, trackKinds } from '../../src/signals/track-design/request.ts';

const SEED = 20_251;
const WISHES = 36;

/** Wish number `n`: every field within what its kind allows, about half of the fields left to their defaults. */
function wish(n: number): TrackRequest {
  let at = n * 1000;
  const chance = () => uniform(SEED, at++);
  const pick = <T>(choices: readonly T[]): T => choices[Math.floor(chance() * choices.length)];
  const maybe = <T>(value: T): T | undefined => (chance() < 0.5 ? value : undefined);
  const between = (low: number, high: number) => low + (high - low) * chance();
  const kind = trackKinds[n % trackKinds.length];
  const { takes, ceilingDbfs } = kindTraits[kind];
  const rateHz = pick([32_000, 44_100, 48_000, 96_000]);
  const fromHz = 10 ** between(1, 3);
  const band = takes.includes('fromHz') && chance() < 0.7;
  const inTurn = kind === 'near' || kind === 'pair';
  const side = inTurn ? undefined : maybe(pick(['left', 'right', 'both'] as const));
  const levelDbfs = maybe(between(-60, ceilingDbfs));
  const rising = [between(-70, -60), between(-55, -40), -39, -38.5].slice(0, 2 + Math.floor(chance() * 3));
  const tonesHz = [between(30, 9000), between(30, 9000), between(30, 9000)].slice(0, 1 + Math.floor(chance() * 3));
  return {
    kind,
    rateHz,
    fromHz: band ? fromHz : undefined,
    toHz: band ? Math.min(fromHz * between(1.5, 200), 0.45 * rateHz) : undefined,
    stimulusS: between(0.2, 1.5),
    levelDbfs,
    levelsDbfs: takes.includes('levelsDbfs') && levelDbfs === undefined ? maybe(rising) : undefined,
    side,
    markerSide: kind === 'pair' ? undefined : maybe(inTurn ? 'none' : pick(['left', 'right', 'both', 'none'] as const)),
    markerBandHz: maybe({ from: between(500, 2500), to: between(6000, 12_000) }),
    repeats: kind === 'ladder' ? 3 : maybe(2),
    seed: maybe(Math.floor(chance() * 2 ** 32)),
    tonesHz: takes.includes('tonesHz') ? maybe(tonesHz) : undefined,
    // Few outputs, for each has noise of its own, which takes long to make.
    outputs: kind === 'bursts' ? tonesHz.length : undefined,
    relation:
      kind === 'noise' && (side ?? 'both') === 'both'
        ? maybe(pick(['same', 'opposite', 'independent'] as const))
        : undefined,
    code: maybe(Math.floor(chance() * 256)),
  };
}

interface Shape {
  fromHz: number;
  toHz: number;
  fHz: number;
  fadeInS: number;
  fadeOutS: number;
  levelDbfs: number;
  widthS: number;
}

/** The steepest a segment may move from one sample to the next: its highest frequency and its ramps at full level. */
function steepest(segment: TrackSegment, rateHz: number): number {
  const { fromHz = 0, toHz = 0, fHz = 0, fadeInS, fadeOutS, levelDbfs, widthS } = segment as unknown as Partial<Shape>;
  const peak = amplitudeFromDb(levelDbfs ?? -160);
  if (segment.kind === 'pulses') return (peak * Math.PI) / ((widthS ?? 1) * rateHz);
  const ramp = segment.kind === 'marker' ? segment.durationS / 4 : Math.min(fadeInS ?? 1, fadeOutS ?? 1);
  // Between its samples noise may peak higher than at them.
  const overshoot = segment.kind === 'noise' ? 1.5 : 1;
  const turning = (2 * Math.PI * Math.max(fromHz, toHz, fHz) * overshoot) / rateHz;
  return peak * (turning + Math.PI / (2 * ramp * rateHz));
}

function rendered(track: TrackDescription, block: number): Float64Array[] {
  const audio = trackAudio(track);
  expect(audio.silentSegments).toEqual([]);
  const out = Array.from({ length: audio.channels }, () => new Float64Array(audio.frames));
  for (let start = 0; start < audio.frames; start += block) {
    const pieces = audio.renderBlock(start, Math.min(block, audio.frames - start));
    pieces.forEach((piece, channel) => {
      out[channel].set(piece, start);
    });
  }
  return out;
}

function peakOf(samples: Float64Array): number {
  let peak = 0;
  for (const value of samples) peak = Math.max(peak, Math.abs(value));
  return peak;
}

function check(request: TrackRequest): void {
  const designed = designTrack(request);
  if (!designed.ok) throw new Error(JSON.stringify(designed.issues));
  const track = designed.value;
  expect(trackSchema.parse(track)).toEqual(track);
  const { rateHz } = track;
  const sound = rendered(track, 65_536);

  // Peak: nothing above the level asked for, and something at it.
  const levels = track.segments.map((segment) => (segment as unknown as Shape).levelDbfs ?? -160);
  const top = Math.max(...levels);
  if (request.levelDbfs !== undefined) expect(top).toBeLessThanOrEqual(request.levelDbfs);
  const peak = Math.max(...sound.map(peakOf));
  expect(peak).toBeLessThanOrEqual(amplitudeFromDb(top) * (1 + 1e-12));
  expect(peak).toBeGreaterThan(amplitudeFromDb(top) * 0.9);

  // Zeros at both ends, and everywhere outside the segments.
  const covered = new Uint8Array(sound[0].length);
  let last = 0;
  for (const segment of track.segments) {
    const start = Math.round(segment.startS * rateHz);
    expect(Math.abs(segment.startS * rateHz - start)).toBeLessThan(1e-6);
    expect(segment.startS).toBeGreaterThanOrEqual(last);
    last = segment.startS;
    if (segment.kind === 'silence') continue;
    const end = start + Math.floor(segment.durationS * rateHz + 1e-6) + (segment.kind === 'sweep' ? 1 : 0);
    expect(end).toBeLessThanOrEqual(sound[0].length - rateHz * 0.2);
    expect(start).toBeGreaterThanOrEqual(rateHz);
    expect(covered.subarray(start, end).some((mark) => mark === 1)).toBe(false);
    covered.fill(1, start, end);
    // Slope and ends of each event.
    const limit = steepest(segment, rateHz) * (1 + 1e-9) + 1e-15;
    for (const channel of sound) {
      let step = 0;
      for (let n = start; n <= end; n++) step = Math.max(step, Math.abs(channel[n] - channel[n - 1]));
      expect(step).toBeLessThanOrEqual(limit);
      if (segment.kind === 'pulses') continue;
      // 0.5 ms into a ramp of 5 ms a raised cosine has reached 2.4 %.
      const edge = Math.round(rateHz * 0.0005);
      const level = amplitudeFromDb((segment as unknown as Shape).levelDbfs);
      expect(peakOf(channel.subarray(start, start + edge))).toBeLessThan(0.03 * level);
      expect(peakOf(channel.subarray(end - edge, end))).toBeLessThan(0.03 * level);
    }
  }
  for (const channel of sound) {
    const loud = channel.findIndex((value, n) => value !== 0 && covered[n] === 0);
    expect(loud).toBe(-1);
  }

  // The code lies in the gaps of every group, and the sides carry what they are said to carry.
  const starts = track.segments.filter(({ kind }) => kind === 'marker') as MarkerSegment[];
  expect(track.code === undefined).toBe(starts.length === 0);
  const outer = starts.filter((_, n) => n < 3 || n >= starts.length - 3);
  for (const group of [outer.slice(0, 3), outer.slice(3)]) {
    if (group.length < 3) continue;
    const [first, second] = [group[1].startS - group[0].startS, group[2].startS - group[1].startS];
    const code = Math.round((first - 0.15) / 0.005) + 16 * Math.round((second - 0.15) / 0.005) + 0;
    expect(code).toBe(track.code);
    if (request.code !== undefined) expect(code).toBe(request.code);
  }
  for (const [channel, other] of [
    [0, 'right'],
    [1, 'left'],
  ] as const) {
    const used = track.segments.some((segment) => 'side' in segment && segment.side !== other);
    expect(peakOf(sound[channel]) > 0).toBe(used);
  }

  // The description alone, gone through JSON and cut otherwise, makes the identical sound.
  const again = rendered(trackSchema.parse(JSON.parse(JSON.stringify(track))), 9973);
  for (const [channel, samples] of sound.entries()) {
    expect(again[channel].every((value, n) => value === samples[n])).toBe(true);
  }
}

describe('every track keeps its level, starts and ends silent, moves no faster than its ramps allow, and is made again by its description', () => {
  for (let first = 0; first < WISHES; first += trackKinds.length) {
    test(`seed ${SEED}, wishes ${first} to ${first + trackKinds.length - 1}`, () => {
      for (let n = first; n < first + trackKinds.length; n++) {
        const request = wish(n);
        try {
          check(request);
        } catch (error) {
          throw new Error(`wish ${n}: ${JSON.stringify(request)}`, { cause: error });
        }
      }
    });
  }
});
