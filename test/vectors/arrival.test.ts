import { expect, test } from 'vitest';
import { arrivalTime } from '../../src/measurement/arrival-time.ts';
import { arrivalAfterRightAnchor, delaySettings, soundSpeedMPerS } from '../../src/measurement/delay-setting.ts';
import { codedGroups, codeOfGaps, markerKinds, matchMarkers } from '../../src/measurement/marker-match.ts';
import { chirpPeaks } from '../../src/measurement/marker-search.ts';
import { clockFit } from '../../src/measurement/time-base.ts';
import { analogCrossoverResponse, type Crossover, type PassKind } from '../../src/signals/filters/crossover.ts';
import type { TrackDescription } from '../../src/signals/track.ts';
import vectors from './arrival.json' with { type: 'json' };
import { recordingFile, samplesOf } from './recording-file.ts';

type Side = { family: string; order: number; fc: number } | null;
type ImpulseVector = (typeof vectors.ir)[number];

function passDb(side: Side, kind: PassKind, fHz: number): number {
  if (!side) return 0;
  const crossover = { family: side.family as Crossover['family'], order: side.order, fHz: side.fc };
  const { re, im } = analogCrossoverResponse(crossover, kind, [fHz]);
  return 20 * Math.log10(Math.max(Math.hypot(re[0], im[0]), 1e-12));
}

/** The driver as guessed: a resonance of second order, and where its cone gives up. */
function driverDb({ f0, q, upper_hz }: ImpulseVector['driver_guess'], fHz: number): number {
  const x = fHz / f0;
  return 20 * Math.log10((x * x) / Math.hypot(1 - x * x, x / q)) - 10 * Math.log10(1 + (fHz / upper_hz) ** 4);
}

/** From here on several arrivals fit an impulse response about equally well. */
const AMBIGUOUS = 0.8;
const LEAST_COHERENCE = 0.45;

test.each(vectors.ir)('arrival $id of a $kind, polarity $expect.polarity', (vector) => {
  const { crossover, driver_guess: guess, expect: wanted } = vector;
  const { hp, lp } = crossover as { hp: Side; lp: Side };
  const arrival = arrivalTime(samplesOf(recordingFile(vector.wav)), {
    rateHz: vector.fs,
    zeroIndex: vector.zero_sample,
    bandHz: { low: hp?.fc ?? guess.f0, high: lp?.fc ?? 18_000 },
    windowS: {
      from: (vector.tape_measure_ms - vector.tape_window_ms) / 1000,
      to: (vector.tape_measure_ms + vector.tape_window_ms) / 1000,
    },
    outsideDb: (fHz) => passDb(hp, 'high-pass', fHz) + passDb(lp, 'low-pass', fHz) + driverDb(guess, fHz),
  });
  const refused = arrival.atEdge || arrival.coherence < LEAST_COHERENCE || arrival.ambiguity >= AMBIGUOUS;
  expect(refused).toBe(wanted.polarity === 'cannot say');
  if (wanted.arrival_ms === null) return;
  expect(Math.abs(arrival.arrivalS * 1000 - wanted.arrival_ms)).toBeLessThan(wanted.tolerance_ms);
  expect(arrival.sign).toBe(wanted.polarity === '+' ? 1 : -1);
});

/** The description of a track that holds the markers alone, as their vector tells it. */
function markerTrack(vector: (typeof vectors.markers)[number]): TrackDescription {
  const { marker, fs, expect: wanted } = vector;
  const gapsS = [0.15 + 0.005 * (wanted.code % 16), 0.15 + 0.005 * Math.floor(wanted.code / 16)];
  const segments = [
    { names: vector.start_group, startS: vector.first_start_marker_s },
    { names: vector.end_group, startS: vector.first_end_marker_s },
  ].flatMap(({ names, startS }) =>
    names.map((name, i) => ({
      kind: 'marker' as const,
      side: 'both' as const,
      startS: startS + gapsS.slice(0, i).reduce((sum, gapS) => sum + gapS, 0),
      durationS: marker.dur,
      fromHz: name === 'up' ? marker.fa : marker.fb,
      toHz: name === 'up' ? marker.fb : marker.fa,
      levelDbfs: 0,
    })),
  );
  return { schema: 'kickpanel.track/1', kind: 'pair', rateHz: fs, channels: 1, durationS: 4, segments };
}

test.each(vectors.markers)('markers $id: code $expect.code, $expect.status', (vector) => {
  const { fs, expect: wanted } = vector;
  const recording = recordingFile(vector.wav);
  const { kinds, markers } = markerKinds(markerTrack(vector));
  const peaks = chirpPeaks(recording, 0, kinds, fs);
  const match = matchMarkers(markers, peaks, fs);
  expect(match.displaced).toEqual([]);
  expect(match.groupsFound).toEqual(wanted.status === 'ok' ? [0, 1] : [0]);
  expect(wanted.status).toBe(match.groupsFound.length === 2 ? 'ok' : 'end missing');
  expect(match.matched.map(({ marker }) => marker.frame)).toEqual(
    wanted.markers.map(({ track_sample }) => track_sample),
  );
  match.matched.forEach(({ peak }, i) => {
    const away = Math.abs(peak.position - wanted.markers[i].recorder_sample);
    expect(away).toBeLessThan(wanted.tolerance.sample);
  });
  // The code, read without knowing it: every group that was heard spells it, and none spells another.
  const up = kinds.findIndex(({ fromHz, toHz }) => toHz > fromHz);
  const groups = codedGroups(peaks, up, 1 - up, fs);
  expect(groups.map(({ code, end }) => [code, end])).toEqual(
    match.groupsFound.map((group) => [wanted.code, group === 1]),
  );
  const [first, second, third] = match.matched.map(({ peak }) => peak.position / fs);
  expect(codeOfGaps(second - first, third - second)).toBe(wanted.code);
  if (wanted.drift_ppm === null) return;
  const slope = clockFit(recording, 0, kinds, match.matched, fs).slope ?? Number.NaN;
  // The vector counts what the recording lacks: positive when it runs short.
  expect(Math.abs((1 / slope - 1) * 1e6 - wanted.drift_ppm)).toBeLessThan(wanted.tolerance.drift_ppm);
});

test.each(vectors.relative)('delays $id, by steps of $delay_step_ms ms', (vector) => {
  const { expect: wanted } = vector;
  const leftMinusRightS = vector.calibration.left_minus_right_tweeter_ms / 1000;
  const anchored: Record<string, number> = {
    'left tweeter': leftMinusRightS,
    'right tweeter': 0,
    ...Object.fromEntries(
      vector.takes.map(({ driver, anchor, tau_ms }) => [
        driver,
        arrivalAfterRightAnchor(
          { arrivalS: tau_ms / 1000, anchorSide: anchor.startsWith('left') ? 'left' : 'right' },
          leftMinusRightS,
        ),
      ]),
    ),
  };
  const names = Object.keys(wanted.delay_setting_ms) as (keyof typeof wanted.delay_setting_ms)[];
  const inPlace = vector.delays_in_place_ms;
  const settings = delaySettings(
    names.map((name) => ({ arrivalS: anchored[name], delayInPlaceS: inPlace[name] / 1000 })),
    vector.delay_step_ms / 1000,
  );
  const metres = soundSpeedMPerS(vector.air_temp_c);
  expect(Math.abs(metres - wanted.speed_of_sound)).toBeLessThan(1e-4);
  names.forEach((name, i) => {
    expect(Math.abs(anchored[name] * 1000 - wanted.arrival_rel_right_tweeter_ms[name])).toBeLessThan(1e-4);
    expect(Math.abs(settings[i].delayS * 1000 - wanted.delay_setting_ms[name])).toBeLessThan(1e-4);
    expect(Math.abs(settings[i].exactS * metres - wanted.path_difference_m_vs_latest[name])).toBeLessThan(1e-4);
    expect(settings[i].plausible).toBe(true);
  });
});
