// From arrivals measured take by take to the delays that let all drivers arrive together.
import { assert, assertRange } from '../base/assert.ts';

/** What one take said of one driver. */
export interface AnchoredArrival {
  /** Arrival after the driver that played the markers, s; may be negative. */
  arrivalS: number;
  /** Side of the driver that played the markers. */
  anchorSide: 'left' | 'right';
}

/**
 * Arrival after the right anchor, whichever anchor the take used, s.
 *
 * @param leftMinusRightS  arrival of the left anchor after the right one, from a take in which both played, s
 */
export function arrivalAfterRightAnchor({ arrivalS, anchorSide }: AnchoredArrival, leftMinusRightS: number): number {
  return anchorSide === 'left' ? arrivalS + leftMinusRightS : arrivalS;
}

/** A channel as it was measured. */
export interface ChannelArrival {
  /** Arrival after one common reference, s; may be negative. */
  arrivalS: number;
  /** Delay the channel was set to meanwhile, s. */
  delayInPlaceS: number;
}

/** What a channel is to be set to. */
export interface DelaySetting {
  /** What would make it arrive with the latest, s. */
  exactS: number;
  /** The nearest that can be set, s. */
  delayS: number;
  /** False: more than paths inside a car can differ by; the plan, a wire or an arrival is wrong, not the delay. */
  plausible: boolean;
}

/** Five metres of path: no seat is further from one driver than from another by as much. */
const PLAUSIBLE_S = 0.015;

/**
 * Delays that make all channels arrive with the latest of them.
 *
 * What is already set is taken out first, so that measuring again with the result in place gives the same result.
 *
 * @param channels  at least one; not changed
 * @param stepS     smallest change of delay that the processor knows, s, > 0
 * @returns one setting a channel, in their order; the latest gets 0
 * @throws Error, RangeError  no channel, or numbers outside their range: the caller's mistake
 * Accuracy: half a step of rounding; 1e-7 s before it (test/vectors/arrival.json)
 * Source: derivation.
 * @example arrivals of 1 and 3.004 ms, nothing set, steps of 0.01 ms: 2 ms and 0
 */
export function delaySettings(channels: readonly ChannelArrival[], stepS: number): DelaySetting[] {
  assert(channels.length > 0, 'delays need a channel');
  assertRange('stepS', stepS, 1e-7, 1);
  const raws = channels.map(({ arrivalS, delayInPlaceS }) => {
    assertRange('arrivalS', arrivalS, -10, 10);
    assertRange('delayInPlaceS', delayInPlaceS, 0, 10);
    return arrivalS - delayInPlaceS;
  });
  const latest = Math.max(...raws);
  return raws.map((raw) => {
    const exactS = latest - raw;
    return { exactS, delayS: Math.round(exactS / stepS) * stepS, plausible: exactS <= PLAUSIBLE_S };
  });
}

/**
 * Speed of sound in air, m/s.
 *
 * @param temperatureC  -60 .. 100
 * Source: ideal gas, 331.3 sqrt(1 + T / 273.15).
 * @example 20 degrees: 343.2 m/s
 */
export function soundSpeedMPerS(temperatureC: number): number {
  assertRange('temperatureC', temperatureC, -60, 100);
  return 331.3 * Math.sqrt(1 + temperatureC / 273.15);
}
