import { describe, expect, test } from 'vitest';
import { gauss } from '../base/random.ts';
import { recordingFromArrays } from '../signals/recording.ts';
import type { MatchedMarker } from './marker-match.ts';
import { clockFit } from './time-base.ts';

const RATE_HZ = 24_000;
const KINDS = [
  { fromHz: 2000, toHz: 8000, durationS: 0.08 },
  { fromHz: 8000, toHz: 2000, durationS: 0.08 },
];

/** The chirp at any instant: the formula itself, so that it may start between two samples. */
function chirpAt(kind: (typeof KINDS)[number], t: number): number {
  const { fromHz, toHz, durationS } = kind;
  if (t < 0 || t > durationS) return 0;
  const edge = Math.min(t, durationS - t) / (durationS / 4);
  const weight = edge < 1 ? 0.5 - 0.5 * Math.cos(Math.PI * edge) : 1;
  return 0.3 * weight * Math.sin(2 * Math.PI * (fromHz * t + ((toHz - fromHz) * t * t) / (2 * durationS)));
}

interface Played {
  frame: number;
  kind: number;
  group: number;
  /** Displacement, samples. */
  moved?: number;
}

/** Two groups of three, 2 s apart on the track. */
const played: Played[] = [
  { frame: 4800, kind: 0, group: 0 },
  { frame: 9000, kind: 1, group: 0 },
  { frame: 13_000, kind: 0, group: 0 },
  { frame: 60_000, kind: 1, group: 1 },
  { frame: 64_200, kind: 0, group: 1 },
  { frame: 68_200, kind: 1, group: 1 },
];

/** A recording of the chirps with a direct sound and two echoes, its clock `ppm` long, and what a search would match. */
function take(markers: Played[], ppm: number, noise = 0) {
  const slope = 1 + ppm * 1e-6;
  const samples = Float64Array.from({ length: 75_000 }, (_, n) => noise * gauss(5, n));
  const matched = markers.map(({ frame, kind, group, moved = 0 }): MatchedMarker => {
    const position = slope * frame + 321.37 + moved;
    for (const [echoS, gain] of [
      [0, 1],
      [0.0011, 0.6],
      [0.0034, -0.4],
    ]) {
      const first = Math.floor(position + echoS * RATE_HZ);
      for (let n = first; n < first + 2000 && n < samples.length; n++) {
        samples[n] += gain * chirpAt(KINDS[kind], (n - position) / (RATE_HZ * slope) - echoS);
      }
    }
    // A search finds the place to a few samples only.
    const peak = { position: position + 3 * Math.sin(frame), score: 0.7 + 0.001 * group, amplitude: 0.3 };
    return { marker: { kind, side: 'both', frame, timeS: frame / RATE_HZ, levelDbfs: -10, group }, peak };
  });
  return { recording: recordingFromArrays([samples], RATE_HZ), matched };
}

const fitOf = (markers: Played[], ppm: number, noise = 0) => {
  const { recording, matched } = take(markers, ppm, noise);
  return clockFit(recording, 0, KINDS, matched, RATE_HZ);
};
const ppmOf = (slope: number | null): number => ((slope ?? Number.NaN) - 1) * 1e6;

describe('the clock of a take', () => {
  test.each([0, 43, -180, 400])('of %f ppm is read within 0.3 ppm through a room', (ppm) => {
    const fit = fitOf(played, ppm);
    expect(Math.abs(ppmOf(fit.slope) - ppm)).toBeLessThan(0.3);
    expect(Math.max(...fit.residuals.map(Math.abs))).toBeLessThan(0.03);
    expect(fit.similarity).toBeGreaterThan(0.99);
  });

  test('is as certain as its residuals allow: noise widens them and the sigma covers the error', () => {
    const clean = fitOf(played, 43);
    const noisy = fitOf(played, 43, 1);
    expect(noisy.similarity).toBeLessThan(clean.similarity);
    expect(noisy.slopeSigma as number).toBeGreaterThan(clean.slopeSigma as number);
    expect(Math.abs(ppmOf(noisy.slope) - 43)).toBeLessThan(5 * (noisy.slopeSigma as number) * 1e6);
  });

  test('inside the groups stays right when samples are lost between them', () => {
    const lost = played.map((marker) => ({ ...marker, moved: marker.group === 1 ? -120 : 0 }));
    const fit = fitOf(lost, 20);
    // 120 samples of some 52 000.
    expect(ppmOf(fit.slope)).toBeLessThan(-2000);
    expect(Math.abs(ppmOf(fit.slopeInside) - 20)).toBeLessThan(15);
  });

  test('cannot be told from markers of which none repeats', () => {
    const fit = fitOf(played.slice(0, 2), 43);
    expect(fit).toMatchObject({ slope: null, slopeSigma: null, slopeInside: null, residuals: [0, 0], similarity: 0 });
    expect(fit.positions.length).toBe(2);
  });

  test('from two of a kind is a line without residuals and with a sigma all the same', () => {
    const fit = fitOf([played[0], played[4]], -30);
    expect(Math.abs(ppmOf(fit.slope) + 30)).toBeLessThan(0.5);
    expect(fit.slopeSigma).toBeGreaterThan(0);
    expect(fit.slopeInside).toBeNull();
  });

  test('of no markers is no clock', () => {
    expect(fitOf([], 0)).toMatchObject({ positions: [], classes: [], slope: null, residuals: [], similarity: 0 });
  });
});
