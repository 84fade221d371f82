// Faults of the recorder before its converter: overload, automatic gain, gates, narrow bands, offset.
import type { RecorderEffect } from '../recorder-effects.ts';
import type { TakeRequest } from '../take-request.ts';
import { type FaultyWorld, peakDbfs, recorderOf, truthOf, withRecorder } from './fault.ts';

function withEffects(world: TakeRequest, ...effects: RecorderEffect[]): TakeRequest {
  return withRecorder(world, { effects: [...recorderOf(world).effects, ...effects] });
}

/** Gain so high that the highest peak would stand `overDb` above full scale. */
export function clippedDigital(world: TakeRequest, overDb = 8): FaultyWorld {
  const gainDb = recorderOf(world).gainDb + overDb - peakDbfs(world);
  return {
    world: withRecorder(world, { gainDb }),
    truth: truthOf('clipped-digital', {
      mustFlag: ['clipped-digital'],
      mayAlsoFlag: ['clipped-analogue', 'agc'],
      detail: { overDb, gainDb },
    }),
  };
}

/** The microphone end limits `overDb` under the highest peak; the file itself stays below full scale. */
export function clippedAnalogue(world: TakeRequest, overDb = 8, shape: 'hard' | 'soft' = 'hard'): FaultyWorld {
  const atDbfs = peakDbfs(world) - overDb;
  return {
    world: withEffects(world, { kind: 'clip', shape, atDbfs }),
    truth: truthOf(`clipped-analogue-${shape}`, {
      mustFlag: ['clipped-analogue'],
      mayAlsoFlag: ['agc'],
      detail: { overDb, atDbfs },
    }),
  };
}

/** Automatic gain that holds loud and soft at one level. */
export function automaticGain(world: TakeRequest, mostGainDb = 30): FaultyWorld {
  const targetDb = peakDbfs(world) - 12;
  return {
    world: withEffects(world, { kind: 'agc', targetDb, mostGainDb, attackS: 0.03, releaseS: 3 }),
    truth: truthOf('agc', {
      mustFlag: ['agc'],
      mayAlsoFlag: ['noise-changed', 'gated', 'low-snr'],
      detail: { targetDb, mostGainDb },
    }),
  };
}

/** Everything under a threshold above the noise becomes exact silence. */
export function gated(world: TakeRequest, overNoiseDb = 20): FaultyWorld {
  const thresholdDb = recorderOf(world).noise.levelDb + recorderOf(world).gainDb + overNoiseDb;
  const gate: RecorderEffect = {
    kind: 'gate',
    thresholdDb,
    depthDb: Number.POSITIVE_INFINITY,
    holdS: 0.12,
    releaseS: 0.02,
  };
  return {
    world: withEffects(world, gate),
    truth: truthOf('gated', {
      mustFlag: ['gated'],
      mayAlsoFlag: ['noise-changed', 'low-snr', 'silent', 'agc'],
      usable: false,
      detail: { thresholdDb },
    }),
  };
}

/** Noise suppression: what stands still for two seconds fades. */
export function suppressed(world: TakeRequest, depthDb = 25): FaultyWorld {
  return {
    world: withEffects(world, { kind: 'suppression', depthDb, settleS: 1 }),
    truth: truthOf('suppressed', {
      mustFlagOneOf: ['gated', 'agc', 'noise-changed'],
      mayAlsoFlag: ['gated', 'agc', 'noise-changed', 'low-snr'],
      detail: { depthDb },
    }),
  };
}

const BANDS = {
  telephone: { lowHz: 300, highHz: 3400 },
  voice: { lowHz: 80, highHz: 7500 },
  'wind-cut': { lowHz: 160, highHz: 40_000 },
} as const;

/** A path made for speech. `telephone` 300 to 3400 Hz, `voice` up to 7.5 kHz, `wind-cut` from 160 Hz. */
export function bandLimited(world: TakeRequest, band: keyof typeof BANDS = 'telephone'): FaultyWorld {
  return {
    world: withEffects(world, { kind: 'band-limit', ...BANDS[band], order: 8 }),
    truth: truthOf(`band-limited-${band}`, {
      mustFlag: ['band-limited'],
      mayAlsoFlag: ['gated', 'agc', 'noise-changed', 'low-snr', 'no-markers'],
      detail: BANDS[band],
    }),
  };
}

/** A constant offset of `level` (full scale 1). */
export function offset(world: TakeRequest, level = 0.03): FaultyWorld {
  return {
    world: withEffects(world, { kind: 'offset', level }),
    truth: truthOf('offset', { usable: true, detail: { level } }),
  };
}

/** A phone: 16 bit with dither, a narrow low end, the wave turned over. No fault a reader may complain of. */
export function phoneSixteenBit(world: TakeRequest): FaultyWorld {
  return {
    world: withRecorder(withEffects(world, { kind: 'band-limit', lowHz: 25, highHz: 21_000, order: 2 }), {
      bits: 16,
      sign: -1,
    }),
    truth: truthOf('phone-sixteen-bit', { usable: true, detail: { bits: 16, sign: -1 } }),
  };
}
