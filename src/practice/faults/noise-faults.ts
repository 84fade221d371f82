// Faults of the surroundings: too much noise, noise that changes, a lorry, hum, an engine that runs.
import type { NoiseEvent } from '../noise-events.ts';
import type { TakeRequest } from '../take-request.ts';
import { type FaultyWorld, firstStimulus, heardAtS, recorderOf, truthOf, withRecorder } from './fault.ts';

function withEvent(world: TakeRequest, event: NoiseEvent): TakeRequest {
  return withRecorder(world, { events: [...recorderOf(world).events, event] });
}

/** A blower as loud as the take: the stimulus stands `snrDb` over the noise in its own band. */
export function tooNoisy(world: TakeRequest, snrDb = -6): FaultyWorld {
  return {
    world: withRecorder(world, { snrDb, noise: { ...recorderOf(world).noise, character: 'fan' } }),
    truth: truthOf('too-noisy', {
      mustFlagOneOf: ['low-snr', 'no-markers'],
      mayAlsoFlag: ['agc', 'noise-changed', 'low-snr', 'no-markers'],
      usable: false,
      detail: { snrDb },
    }),
  };
}

/** A blower goes on after the first stimulus and stays on. */
export function noiseChanges(world: TakeRequest, overNoiseDb = 12): FaultyWorld {
  const { startS, durationS } = firstStimulus(world);
  const fromS = heardAtS(world, startS + durationS + 0.2);
  const levelDb = recorderOf(world).noise.levelDb + overNoiseDb;
  return {
    world: withEvent(world, { kind: 'blower', fromS, toS: fromS + 3600, levelDb }),
    truth: truthOf('noise-changes', {
      mustFlag: ['noise-changed'],
      mayAlsoFlag: ['agc', 'low-snr'],
      detail: { fromS, levelDb },
    }),
  };
}

/** A lorry passes in the middle of the first stimulus. */
export function lorryPasses(world: TakeRequest, overNoiseDb = 20): FaultyWorld {
  const { startS, durationS } = firstStimulus(world);
  const atS = heardAtS(world, startS + durationS / 2);
  const levelDb = recorderOf(world).noise.levelDb + overNoiseDb;
  return {
    world: withEvent(world, { kind: 'lorry', atS, widthS: 3, levelDb }),
    truth: truthOf('lorry-passes', {
      mayAlsoFlag: ['noise-changed', 'low-snr', 'agc'],
      detail: { atS, levelDb },
    }),
  };
}

/** Mains hum of the measuring chain. */
export function mainsHum(world: TakeRequest, fHz: 50 | 60 = 50): FaultyWorld {
  const levelDb = recorderOf(world).noise.levelDb + 6;
  return {
    world: withEvent(world, { kind: 'hum', fHz, partials: 6, levelDb, fallDb: 6 }),
    truth: truthOf('mains-hum', { mayAlsoFlag: ['low-snr'], detail: { fHz, levelDb } }),
  };
}

/** The engine runs: alternator whine that wanders with the revs, and its rumble. */
export function engineWhine(world: TakeRequest): FaultyWorld {
  const levelDb = recorderOf(world).noise.levelDb + 6;
  const engine = withRecorder(world, {
    noise: { ...recorderOf(world).noise, lines: [26.7, 53.3, 80].map((fHz, k) => ({ fHz, levelDb: 6 - 5 * k })) },
  });
  return {
    world: withEvent(engine, { kind: 'whine', fHz: 1200, wanderShare: 0.01, wanderS: 2.3, levelDb }),
    truth: truthOf('engine-whine', { mayAlsoFlag: ['low-snr', 'noise-changed'], detail: { fHz: 1200, levelDb } }),
  };
}

/** Nothing plays at all. */
export function silence(world: TakeRequest): FaultyWorld {
  return {
    world: { ...world, on: [] },
    truth: truthOf('silence', {
      mustFlagOneOf: ['silent', 'no-markers'],
      mayAlsoFlag: ['silent', 'no-markers', 'low-snr'],
      usable: false,
    }),
  };
}
