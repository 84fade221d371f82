// Distortion by order from one exponential sweep, each order with the floor that noise sets for it.
import { powerOfTwoFrom } from '../signals/fft.ts';
import { sweepConstantS } from '../signals/sweep.ts';
import type { NoiseDensity } from './noise-density.ts';
import { meanPower, powerCurve } from './power-curve.ts';
import { type SweepImpulse, spectrumAbout, type TimeWindow, windowed } from './sweep-impulse.ts';
import { noisePower } from './sweep-response.ts';

export const HIGHEST_ORDER = 5;

/** One order over the fundamental frequencies asked for; ratios re the fundamental, amplitudes. */
export interface OrderReading {
  order: number;
  ratio: (number | null)[];
  /** What noise alone would read as. */
  floor: (number | null)[];
}

/**
 * Window of one order in the impulse response.
 *
 * It may use 35 % of the room to the next higher order before its arrival and 65 % of the room to the next lower one
 * after it.
 */
export function orderWindow(constantS: number, order: number, arrivalS: number, afterMostS: number): TimeWindow {
  const before = Math.min(0.02, 0.35 * constantS * Math.log((order + 1) / order));
  const room = order === 1 ? Number.POSITIVE_INFINITY : 0.65 * constantS * Math.log(order / (order - 1));
  const after = Math.min(afterMostS, room);
  const centreS = arrivalS - constantS * Math.log(order);
  return { fromS: centreS - before, toS: centreS + after, riseS: 0.15 * before, fallS: 0.3 * after };
}

/**
 * Orders 1 .. 5 of the distortion at the given fundamentals.
 *
 * After deconvolution order m lies L ln m ahead of the linear part. It is cut out, transformed, and read at m f: the
 * amplitude belongs to the fundamental f. The fundamental is seen through a window as long as the order's own, or
 * reverberation would add to one and not to the other.
 *
 * @param arrivalS   of the direct sound after time zero
 * @param octaves    width of the power smoothing at the order's own frequency
 * @returns null where m f lies above the sweep or the recorder's reach
 * Source: A. Farina, 108th AES Convention, preprint 5093, 2000; A. Novak et al., J. Audio Eng. Soc. 63(10), 2015.
 */
export function harmonicOrders(
  impulse: SweepImpulse,
  arrivalS: number,
  fHz: number[],
  noise: NoiseDensity | null,
  octaves: number,
): OrderReading[] {
  const constantS = sweepConstantS(impulse.shape);
  const lowHz = 1.05 * impulse.shape.fromHz;
  const readings: OrderReading[] = [];
  for (let order = 2; order <= HIGHEST_ORDER; order++) {
    const window = orderWindow(constantS, order, arrivalS, 0.12);
    const stretch = windowed(impulse, window);
    const size = powerOfTwoFrom(2 * stretch.samples.length);
    const originS = arrivalS - constantS * Math.log(order);
    const curve = powerCurve(spectrumAbout(stretch, originS, impulse.rateHz, size), impulse.rateHz / size);
    const length = window.toS - originS;
    const linear = windowed(impulse, {
      fromS: arrivalS - (originS - window.fromS),
      toS: arrivalS + length,
      riseS: window.riseS,
      fallS: window.fallS,
    });
    const base = powerCurve(spectrumAbout(linear, arrivalS, impulse.rateHz, size), impulse.rateHz / size);
    const reading: OrderReading = { order, ratio: [], floor: [] };
    for (const f of fHz) {
      const at = order * f;
      const fundamental = meanPower(base, f, octaves);
      if (f < lowHz || at > Math.min(impulse.toHz, 0.45 * impulse.rateHz) || fundamental <= 0) {
        reading.ratio.push(null);
        reading.floor.push(null);
        continue;
      }
      reading.ratio.push(Math.sqrt(meanPower(curve, at, octaves) / fundamental));
      reading.floor.push(
        noise
          ? Math.sqrt(
              noisePower({ windowEnergy: stretch.energy, rateHz: impulse.rateHz, impulse }, noise, at, octaves) /
                fundamental,
            )
          : null,
      );
    }
    readings.push(reading);
  }
  return readings;
}
