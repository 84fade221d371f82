import { describe, expect, it } from 'vitest';
import { gauss } from '../base/random.ts';
import { linearChirp } from '../signals/chirp.ts';
import { recordingFromArrays } from '../signals/recording.ts';
import { chirpPeaks, relativeDelay } from './marker-search.ts';

const up = { fromHz: 4000, toHz: 12_000, durationS: 0.08 };
const down = { fromHz: 12_000, toHz: 4000, durationS: 0.08 };
const rateHz = 48_000;

/** The chirp as it is heard when it begins between two samples: the formula at shifted instants. */
function chirpFrom(kind: typeof up, fraction: number): Float64Array {
  const length = Math.round(kind.durationS * rateHz);
  const edge = Math.floor(length / 4);
  return Float64Array.from({ length: length + 1 }, (_, n) => {
    const at = n - fraction;
    if (at < 0 || at > length - 1) return 0;
    const t = at / rateHz;
    const fromEnd = Math.min(at, length - 1 - at);
    const weight = fromEnd < edge ? 0.5 - 0.5 * Math.cos((Math.PI * (fromEnd + 0.5)) / edge) : 1;
    return (
      weight * Math.sin(2 * Math.PI * (kind.fromHz * t + ((kind.toHz - kind.fromHz) * t * t) / (2 * kind.durationS)))
    );
  });
}

function recordingOf(frames: number, chirps: { kind: typeof up; at: number; gain: number }[], noise = 1e-5) {
  const samples = Float64Array.from({ length: frames }, (_, n) => noise * gauss(3, n));
  for (const { kind, at, gain } of chirps) {
    const wave = chirpFrom(kind, at - Math.floor(at));
    for (let n = 0; n < wave.length; n++) samples[Math.floor(at) + n] += gain * wave[n];
  }
  return recordingFromArrays([samples], rateHz);
}

describe('chirpPeaks', () => {
  it('says where each chirp begins, between samples too, and how loud it is', () => {
    const places = [9000, 30_000.25, 52_000.5, 71_003.8];
    const recording = recordingOf(
      90_000,
      places.map((at, i) => ({ kind: i % 2 === 0 ? up : down, at, gain: 0.02 * (i + 1) })),
    );
    const [rising, falling] = chirpPeaks(recording, 0, [up, down], rateHz).map((list) =>
      list.filter(({ score }) => score > 0.5),
    );
    const found = [rising[0], falling[0], rising[1], falling[1]];
    expect([rising.length, falling.length]).toEqual([2, 2]);
    found.forEach((peak, i) => {
      expect(Math.abs(peak.position - places[i])).toBeLessThan(0.05);
      expect(peak.score).toBeGreaterThan(0.99);
      // Read at the sample next to the top: half a sample beside it this chirp stands 0.6 % lower.
      expect(Math.abs(peak.amplitude / (0.02 * (i + 1)) - 1)).toBeLessThan(0.01);
    });
  });

  it('misses none, wherever it falls against the blocks of the search', () => {
    for (let shift = 0; shift < 16; shift++) {
      const places = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => 4000 + 16_021 * i + 797 * shift);
      const recording = recordingOf(
        170_000,
        places.map((at) => ({ kind: up, at, gain: 0.1 })),
      );
      const [rising] = chirpPeaks(recording, 0, [up, down], rateHz);
      const clear = rising.filter(({ score }) => score > 0.9);
      expect(clear.map(({ position }) => Math.round(position))).toEqual(places);
    }
  });

  it('hears nothing in digital silence', () => {
    expect(chirpPeaks(recordingFromArrays([new Float64Array(60_000)], rateHz), 0, [up, down], rateHz)).toEqual([
      [],
      [],
    ]);
  });

  it('has nothing to look for where the recorder does not reach', () => {
    const recording = recordingOf(20_000, []);
    expect(chirpPeaks(recording, 0, [{ fromHz: 30_000, toHz: 35_000, durationS: 0.08 }], rateHz)).toEqual([[]]);
  });

  it('finds noise alone never alike by half', () => {
    const [rising, falling] = chirpPeaks(recordingOf(480_000, [], 0.01), 0, [up, down], rateHz);
    for (const { score } of [...rising, ...falling]) expect(score).toBeLessThan(0.25);
  });
});

describe('relativeDelay', () => {
  it('measures one band-limited pulse against another to a hundredth of a sample', () => {
    const pulse = (delay: number) => {
      const re = new Float64Array(720);
      const im = new Float64Array(720);
      for (let n = 0; n < 720; n++) {
        const t = n - 300 - delay;
        const envelope = Math.exp(-((t / 12) ** 2));
        re[n] = envelope * Math.cos(1.05 * t);
        im[n] = envelope * Math.sin(1.05 * t);
      }
      return { re, im };
    };
    for (const delay of [0, 0.25, -0.4, 3.31, -7.77]) {
      const answer = relativeDelay(pulse(delay), pulse(0), 40);
      expect(Math.abs(answer.delay - delay)).toBeLessThan(0.01);
      expect(answer.similarity).toBeCloseTo(1, 3);
    }
  });

  it('compares what linearChirp gives with itself as no delay', () => {
    const chirp = linearChirp({ ...up, levelDbfs: 0 }, rateHz);
    const one = { re: chirp, im: new Float64Array(chirp.length) };
    expect(relativeDelay(one, one, 20).delay).toBeCloseTo(0, 6);
  });
});
