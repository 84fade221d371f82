// Two short takes of simulated cars that are sound in every respect, and what is true of each.
import { carFromSeed } from '../../src/practice/car-from-seed.ts';
import { renderTake } from '../../src/practice/render-take.ts';
import type { TakeRequest } from '../../src/practice/take-request.ts';
import { type TrackDescription, trackSchema } from '../../src/signals/track.ts';
import type { GoodTake } from './take-corruptions.ts';
import type { SweepTruth } from './take-judgement.ts';

export interface GoodTakeWithTruth extends GoodTake {
  name: string;
  track: TrackDescription;
  truth: SweepTruth;
}

const RATE_HZ = 16_000;

const sweep = (side: string, startS: number, durationS: number, fromHz: number, toHz: number) => ({
  kind: 'sweep',
  side,
  startS,
  durationS,
  fromHz,
  toHz,
  levelDbfs: -8,
  fadeInS: 0.02,
  fadeOutS: 0.01,
});

function described(durationS: number, segments: object[]): TrackDescription {
  return trackSchema.parse({
    schema: 'kickpanel.track/1',
    kind: 'sweep',
    rateHz: RATE_HZ,
    channels: 2,
    durationS,
    segments,
  });
}

/** Markers right, up, down, up and back, spelling `code`; a sweep left between them. */
function markedTrack(code: number): TrackDescription {
  const gapsS = [0.15 + 0.005 * (code % 16), 0.15 + 0.005 * Math.floor(code / 16)];
  const group = (startS: number, rising: boolean[]) =>
    rising.map((up, i) => ({
      kind: 'marker',
      side: 'right',
      startS: startS + gapsS.slice(0, i).reduce((sum, gapS) => sum + gapS, 0),
      durationS: 0.08,
      fromHz: up ? 4000 : 7200,
      toHz: up ? 7200 : 4000,
      levelDbfs: -8,
    }));
  return described(2.6, [
    { kind: 'silence', startS: 0, durationS: 0.4 },
    ...group(0.4, [true, false, true]),
    sweep('left', 1, 0.7, 50, 4000),
    ...group(2.05, [false, true, false]),
  ]);
}

/** One sweep twice, and nothing else. */
function bareTrack(): TrackDescription {
  return described(2.5, [
    { kind: 'silence', startS: 0, durationS: 0.4 },
    sweep('left', 0.4, 0.6, 150, 6500),
    sweep('left', 1.5, 0.6, 150, 6500),
  ]);
}

const car = carFromSeed(1, 'ordinary', { system: 'three-way' });

function rendered(track: TrackDescription, on: TakeRequest['on'], seed: number, startS = 0.3) {
  const recorder = { rateHz: RATE_HZ, startS, driftPpm: 37, gainDb: 12, durationS: startS + track.durationS };
  return renderTake({ track, car, on, seed, recorder });
}

function goodTake(
  name: string,
  track: TrackDescription,
  on: TakeRequest['on'],
  format: '16' | '24',
): GoodTakeWithTruth {
  const take = rendered(track, on, 1);
  const [stimulus] = take.truth.stimuli;
  const others = [rendered(markedTrack(201), on, 2), rendered(track, ['sub', 'door-right'], 3, 0.1)];
  return {
    name,
    track,
    samples: take.samples[0],
    rateHz: RATE_HZ,
    format,
    others: others.map(({ samples }) => samples[0]),
    truth: {
      arrivalS: stimulus.arrivalS,
      sign: stimulus.polaritySign,
      response: { fHz: stimulus.response.fHz, levelDb: stimulus.response.levelDbTwelfthOctave },
    },
  };
}

export const goodTakes: GoodTakeWithTruth[] = [
  goodTake('a door against the other tweeter', markedTrack(52), ['door-left', 'tweeter-right'], '24'),
  goodTake('a mid without markers', bareTrack(), ['mid-left'], '16'),
];
