// Drivers of simulated cars whose polarity is asked for at the seat, at 20 dB over the noise in their band.
import { uniform } from '../../src/base/random.ts';
import { readTake } from '../../src/measurement/read-take.ts';
import { nominalBand, type PlaceId, type PlaceKind, placeOf, withPlace } from '../../src/practice/car.ts';
import { carFromSeed } from '../../src/practice/car-from-seed.ts';
import { renderTake } from '../../src/practice/render-take.ts';
import { recordingFromArrays } from '../../src/signals/recording.ts';
import { designTrack } from '../../src/signals/track-design/design-track.ts';

export interface PolarityCase {
  seed: number;
  place: PlaceId;
  kind: PlaceKind;
  reflections: 'ordinary' | 'hard';
  /** An all-pass of a factory path that nobody told of, somewhere in the driver's band. */
  allPass: boolean;
  reversed: boolean;
}

const PLACES: PlaceId[] = ['tweeter-left', 'mid-left', 'door-left', 'sub', 'tweeter-right', 'mid-right', 'door-right'];
const KINDS: Record<string, PlaceKind> = { tweeter: 'tweeter', mid: 'mid', door: 'midbass', sub: 'sub' };

/** Case `index` of a study: kinds in turn, every third facing away, every fifth behind a hidden all-pass. */
export function polarityCases(index: number): PolarityCase {
  const place = PLACES[index % PLACES.length];
  return {
    seed: 10_000 + index,
    place,
    kind: KINDS[place.split('-')[0]],
    reflections: index % 3 === 2 ? 'hard' : 'ordinary',
    allPass: index % 5 === 4,
    reversed: uniform(77, index) < 0.5,
  };
}

const SNR_DB = 20;

/** Renders and reads one case. */
export function polarityOutcome({ seed, place, reflections, allPass, reversed }: PolarityCase) {
  const plain = carFromSeed(seed, reflections, { system: 'three-way' });
  const { lowHz, highHz } = nominalBand(placeOf(plain, place));
  const hidden = allPass
    ? [
        {
          kind: 'all-pass' as const,
          fHz: lowHz * (highHz / lowHz) ** (0.2 + 0.6 * uniform(78, seed)),
          q: 0.7,
          gainDb: 0,
        },
      ]
    : [];
  const car = withPlace(plain, place, { hidden, wiringSign: reversed ? -1 : 1 });
  const side = place.endsWith('right') ? 'right' : 'left';
  const designed = designTrack({
    kind: 'sweep',
    rateHz: 48_000,
    side,
    fromHz: Math.max(20, Math.round(lowHz / 2)),
    toHz: Math.min(20_000, Math.round(highHz * 3)),
    stimulusS: place === 'sub' ? 4 : 2,
  });
  if (!designed.ok) throw new Error(designed.issues[0].message);
  const { samples, rateHz, truth } = renderTake({
    track: designed.value,
    car,
    on: [{ place, side }, side === 'left' ? 'tweeter-right' : 'tweeter-left'],
    recorder: { snrDb: SNR_DB, driftPpm: 60 * uniform(79, seed) - 30, bits: 24 },
    seed,
  });
  const { reading } = readTake(recordingFromArrays(samples, rateHz, 2 ** -23), designed.value);
  const { sign, confidence, reason } = reading.polarity ?? { sign: 0, confidence: 0, reason: 'withheld' };
  return { usable: reading.quality.usable, truth: truth.stimuli[0].polaritySign, sign, confidence, reason };
}
