// What a recorder does to the sound before it is written: clipping, automatic gain, gates, narrow bands, offset, hum.
import { type Complex, ONE, product, scaled } from './complex.ts';
import { filtered, highPass2, lowPass2, type Section, sectionsResponse } from './sections.ts';

/** One stage of a recorder. Levels in dB re full scale, times in s. */
export type RecorderEffect =
  /** The microphone end limits at this height; 'soft' bends towards it. */
  | { kind: 'clip'; shape: 'hard' | 'soft'; atDbfs: number }
  | { kind: 'gain'; gainDb: number }
  /**
   * Automatic gain: holds the level (`windowS` mean power) at the target, at most `mostGainDb` up, as fast as it is told.
   */
  | { kind: 'agc'; targetDb: number; mostGainDb: number; attackS: number; releaseS: number }
  /** Below the threshold the sound is turned down by `depthDb` (Infinity: to nothing), `holdS` after it was last above. */
  | { kind: 'gate'; thresholdDb: number; depthDb: number; holdS: number; releaseS: number }
  /** Steady sound fades: what does not change for `settleS` is turned down by `depthDb`. */
  | { kind: 'suppression'; depthDb: number; settleS: number }
  /** Butterworth edges of `order` 2, 4, 6 or 8. */
  | { kind: 'band-limit'; lowHz: number; highHz: number; order: number }
  | { kind: 'offset'; level: number };

function bandSections(effect: Extract<RecorderEffect, { kind: 'band-limit' }>, rateHz: number): Section[] {
  const pairs = Math.max(1, Math.round(effect.order / 2));
  const qs = Array.from({ length: pairs }, (_, k) => 1 / (2 * Math.sin((Math.PI * (2 * k + 1)) / (4 * pairs))));
  const high = Math.min(effect.highHz, 0.47 * rateHz);
  return qs.flatMap((q) => [highPass2(effect.lowHz, q, rateHz), lowPass2(high, q, rateHz)]);
}

function clipped(signal: Float64Array, shape: 'hard' | 'soft', limit: number): Float64Array {
  if (shape === 'hard') return signal.map((value) => Math.max(-limit, Math.min(limit, value)));
  // Straight through at low level, flat at the limit: x / (1 + |x|^6)^(1/6).
  return signal.map((value) => value / (1 + Math.abs(value / limit) ** 6) ** (1 / 6));
}

/** Gain that follows `wanted` by first-order steps, quick down and slow up. */
function agc(signal: Float64Array, effect: Extract<RecorderEffect, { kind: 'agc' }>, rateHz: number): Float64Array {
  const mean = 1 - Math.exp(-1 / (0.01 * rateHz));
  const down = 1 - Math.exp(-1 / (effect.attackS * rateHz));
  const up = 1 - Math.exp(-1 / (effect.releaseS * rateHz));
  const target = 10 ** (effect.targetDb / 10);
  let power = target;
  let gainDb = 0;
  return signal.map((value) => {
    power += mean * (value * value - power);
    const wantedDb = Math.min(effect.mostGainDb, 10 * Math.log10(target / Math.max(power, 1e-20)));
    gainDb += (wantedDb < gainDb ? down : up) * (wantedDb - gainDb);
    return value * 10 ** (gainDb / 20);
  });
}

function gate(signal: Float64Array, effect: Extract<RecorderEffect, { kind: 'gate' }>, rateHz: number): Float64Array {
  const threshold = 10 ** (effect.thresholdDb / 20);
  const floor = 10 ** (-effect.depthDb / 20);
  const fade = Math.exp(-1 / (effect.releaseS * rateHz));
  let level = 0;
  let quietFor = effect.holdS;
  let gain = floor;
  return signal.map((value) => {
    level = Math.max(Math.abs(value), level * Math.exp(-1 / (0.005 * rateHz)));
    quietFor = level >= threshold ? 0 : quietFor + 1 / rateHz;
    const wanted = quietFor < effect.holdS ? 1 : floor;
    gain = wanted > gain ? wanted : wanted + (gain - wanted) * fade;
    return value * (gain < 1e-4 ? 0 : gain);
  });
}

/** Turns down what has stood still in level: the share of the level that is older than `settleS`. */
function suppressed(
  signal: Float64Array,
  effect: Extract<RecorderEffect, { kind: 'suppression' }>,
  rateHz: number,
): Float64Array {
  const fast = 1 - Math.exp(-1 / (0.02 * rateHz));
  const slow = 1 - Math.exp(-1 / (effect.settleS * rateHz));
  const least = 10 ** (-effect.depthDb / 20);
  let now = 1e-12;
  let background = 1e-12;
  return signal.map((value) => {
    now += fast * (value * value - now);
    background += (now < background ? fast : slow) * (now - background);
    const share = 1 - Math.min(1, background / Math.max(now, 1e-20));
    return value * Math.max(least, share);
  });
}

/** The sound after one stage; a new array. */
export function withEffect(signal: Float64Array, effect: RecorderEffect, rateHz: number): Float64Array {
  if (effect.kind === 'clip') return clipped(signal, effect.shape, 10 ** (effect.atDbfs / 20));
  if (effect.kind === 'gain') return signal.map((value) => value * 10 ** (effect.gainDb / 20));
  if (effect.kind === 'agc') return agc(signal, effect, rateHz);
  if (effect.kind === 'gate') return gate(signal, effect, rateHz);
  if (effect.kind === 'suppression') return suppressed(signal, effect, rateHz);
  if (effect.kind === 'band-limit') return filtered(bandSections(effect, rateHz), signal);
  return signal.map((value) => value + effect.level);
}

/** What the stages that are linear and constant do at one frequency: gains and narrow bands. */
export function effectsResponse(effects: readonly RecorderEffect[], fHz: number, rateHz: number): Complex {
  let value = ONE;
  for (const effect of effects) {
    if (effect.kind === 'gain') value = scaled(value, 10 ** (effect.gainDb / 20));
    if (effect.kind === 'band-limit')
      value = product(value, sectionsResponse(bandSections(effect, rateHz), fHz, rateHz));
  }
  return value;
}
