// The true response of a stimulus: formulas for level and phase, the impulse response for smoothed levels.
import type { Side } from '../signals/track.ts';
import { type Complex, complex, delayTurn, magnitude, product, scaled, sum } from './complex.ts';
import { addAt } from './convolution.ts';
import { placeResponse } from './path.ts';
import type { RecorderSettings } from './recorder.ts';
import { effectsResponse } from './recorder-effects.ts';
import type { SidedSegment } from './sided-segments.ts';
import { bandedLevelDb, powerSpectrum } from './take-impulse.ts';
import { type PlayingPlace, shareOf, type TakeRequest } from './take-request.ts';

/** A complex response on a grid. */
export interface TrueResponse {
  fHz: Float64Array;
  levelDb: Float64Array;
  phaseDeg: Float64Array;
  /** Power mean over a twelfth of an octave, as readers smooth it, dB. */
  levelDbTwelfthOctave: Float64Array;
}

/** Grid of a stimulus: as asked, or 48 an octave through 1 kHz over what it covers and both rates carry. */
export function gridOf(
  request: TakeRequest,
  segment: SidedSegment,
  recorder: RecorderSettings,
  rateHz: number,
): Float64Array {
  if (request.fHz) return Float64Array.from(request.fHz);
  const low = segment.fHz ?? segment.fromHz ?? 20;
  const high = Math.min(segment.fHz ?? segment.toHz ?? 20_000, 0.45 * Math.min(rateHz, recorder.rateHz));
  const first = Math.ceil(48 * Math.log2(low / 1000));
  const last = Math.floor(48 * Math.log2(high / 1000));
  return Float64Array.from({ length: Math.max(0, last - first + 1) }, (_, k) => 1000 * 2 ** ((first + k) / 48));
}

/** Impulse responses of both sides, as `sideImpulses` gives them. */
export type SideImpulses = { left: Float64Array; right: Float64Array };

function impulseOf(impulses: SideImpulses, side: Side): Float64Array {
  if (side !== 'both') return impulses[side];
  const total = new Float64Array(Math.max(impulses.left.length, impulses.right.length));
  addAt(total, impulses.left, 0);
  addAt(total, impulses.right, 0);
  return total;
}

/** Small-signal response of all that is heard from one side, the first direct sound's arrival removed. */
export function totalResponse(
  request: TakeRequest,
  heard: readonly PlayingPlace[],
  side: Side,
  recorder: RecorderSettings,
  fHz: Float64Array,
  rateHz: number,
  impulses: SideImpulses,
): TrueResponse {
  const earliestS = heard.reduce((least, { directS }) => Math.min(least, directS), Number.POSITIVE_INFINITY);
  const total: Complex[] = Array.from(fHz, () => complex(0));
  for (const one of heard) {
    const gain = shareOf(one, side);
    placeResponse(request.car, one.place, fHz, rateHz).forEach((value, k) => {
      total[k] = sum(total[k], scaled(product(value, delayTurn(fHz[k], one.directS - earliestS)), gain));
    });
  }
  const recorderPower = (f: number) =>
    (magnitude(effectsResponse(recorder.effects, f, recorder.rateHz)) * 10 ** (recorder.gainDb / 20)) ** 2;
  const recorderGain = recorder.sign * 10 ** (recorder.gainDb / 20);
  const withRecorder = total.map((value, k) =>
    scaled(product(value, effectsResponse(recorder.effects, fHz[k], recorder.rateHz)), recorderGain),
  );
  return {
    fHz,
    levelDb: Float64Array.from(withRecorder, (value) => 20 * Math.log10(Math.max(magnitude(value), 1e-12))),
    levelDbTwelfthOctave: bandedLevelDb(powerSpectrum(impulseOf(impulses, side)), rateHz, fHz, 12, recorderPower),
    phaseDeg: Float64Array.from(withRecorder, ({ re, im }) => (Math.atan2(im, re) * 180) / Math.PI),
  };
}
