// One impulse response for each side of the file: everything that plays, summed, small signal.
import { addAt, forwardReversed } from './convolution.ts';
import { resampled } from './interpolation.ts';
import { placeImpulse } from './path.ts';
import type { PlayingPlace, TakeRequest } from './take-request.ts';

/** Where time 0 (the file's sample leaving the player) stands in a side's impulse response. */
export const SIDE_ZERO = 512;

/**
 * `response` with its zero moved from `zeroIndex` to `flight` samples after 0; sample k of the result stands at
 * `offset + k`.
 */
export function flown(
  response: Float64Array,
  zeroIndex: number,
  flight: number,
): { response: Float64Array; offset: number } {
  const whole = Math.floor(flight);
  const lead = 64;
  const moved = resampled(response, -lead - (flight - whole), 1, response.length + 2 * lead);
  return { response: moved, offset: whole - zeroIndex - lead };
}

/** Without what lies 140 dB under the peak at the end. */
export function withoutSilentEnd(response: Float64Array): Float64Array {
  let peak = 0;
  for (const value of response) peak = Math.max(peak, Math.abs(value));
  let end = response.length;
  while (end > 1 && Math.abs(response[end - 1]) < 1e-7 * peak) end--;
  return response.slice(0, end);
}

/** Impulse response from each side of the file to the microphone, re recorded full scale; zero at `SIDE_ZERO`. */
export function sideImpulses(
  request: Pick<TakeRequest, 'car'>,
  playing: readonly PlayingPlace[],
  rateHz: number,
): { left: Float64Array; right: Float64Array } {
  const sides = { left: new Float64Array(Math.ceil(1.2 * rateHz)), right: new Float64Array(Math.ceil(1.2 * rateHz)) };
  for (const { place, feed, directS } of playing) {
    const { response, zeroIndex } = placeImpulse(request.car, place, rateHz);
    const moved = flown(response, zeroIndex, directS * rateHz);
    addAt(sides.left, moved.response, SIDE_ZERO + moved.offset, feed.left);
    addAt(sides.right, moved.response, SIDE_ZERO + moved.offset, feed.right);
  }
  return { left: withoutSilentEnd(sides.left), right: withoutSilentEnd(sides.right) };
}

/** Squared magnitudes of the bins 0 .. size / 2 of a response, in natural order. */
export function powerSpectrum(response: Float64Array): { power: Float64Array; size: number } {
  let size = 1024;
  while (size < 2 * response.length) size *= 2;
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  re.set(response);
  forwardReversed(re, im);
  const bits = Math.log2(size);
  const power = new Float64Array(size / 2 + 1);
  for (let index = 0; index < size; index++) {
    let bin = 0;
    for (let bit = 0; bit < bits; bit++) bin |= ((index >> bit) & 1) << (bits - 1 - bit);
    if (bin <= size / 2) power[bin] = re[index] * re[index] + im[index] * im[index];
  }
  return { power, size };
}

/**
 * Mean power within `1 / fraction` octave around each frequency, bins shared by overlap, dB.
 *
 * @param weight  power gain to apply at a frequency before averaging
 */
export function bandedLevelDb(
  spectrum: { power: Float64Array; size: number },
  rateHz: number,
  fHz: Float64Array,
  fraction: number,
  weight: (fHz: number) => number,
): Float64Array {
  const { power, size } = spectrum;
  const binHz = rateHz / size;
  // Running integral of power from 0 to the upper edge of each bin.
  const integral = new Float64Array(power.length + 1);
  for (let k = 0; k < power.length; k++) integral[k + 1] = integral[k] + power[k] * weight(k * binHz);
  const upTo = (edgeHz: number): number => {
    const at = Math.min(power.length - 1e-9, Math.max(0, edgeHz / binHz + 0.5));
    const whole = Math.floor(at);
    return integral[whole] + (at - whole) * (integral[whole + 1] - integral[whole]);
  };
  const half = 2 ** (1 / (2 * fraction));
  return fHz.map((f) => {
    const mean = (upTo(f * half) - upTo(f / half)) / ((f * half - f / half) / binHz);
    return 10 * Math.log10(Math.max(mean, 1e-24));
  });
}
