// A sine that runs into a limit: how much of it is distortion, and what meters make of it.
import { calculation } from '../../base/calculation.ts';
import { number } from '../../base/calculation-inputs.ts';
import { success } from '../../base/result.ts';

/** A sine clipped at 1; meters are those calibrated to show the RMS of a pure sine. */
export interface ClippedSine {
  /** All harmonics against the fundamental. */
  thdPct: number;
  fundamental: number;
  rms: number;
  /** What a meter shows that rectifies and averages. */
  averageMeterRms: number;
}

const simpsonSteps = 128;

/** Integral of `f` from 0 to `end` by Simpson's rule. */
function integral(f: (x: number) => number, end: number): number {
  const h = end / simpsonSteps;
  let sum = f(0) + f(end);
  for (let i = 1; i < simpsonSteps; i++) sum += (i % 2 === 1 ? 4 : 2) * f(i * h);
  return (sum * h) / 3;
}

/** Below this overdrive the whole wave is so nearly a sine that its harmonics drown in the difference of sums. */
const lightDb = 1;

/**
 * A sine whose peak would reach `overdriveDb` above the limit.
 *
 * The wave is A sin x up to the angle t = asin(1/A) and 1 from there to the top; fundamental and RMS are its integrals in
 * closed form. What is left of the power without the fundamental are the harmonics. Light clipping is worked out from what
 * the limit cuts off, e = A cos x - 1 for |x| < a = pi/2 - t, so that nothing of almost equal size is subtracted: with E the
 * mean square of e and b its fundamental, the harmonics have the power E - b^2 / 2.
 *
 * @param overdriveDb 0 .. 200
 * Source: Fourier series of the clipped sine; derivation above.
 * @example clippedSine({ overdriveDb: 1 }) // thdPct 4.63; rms 0.761 is up 0.63 dB only: a reading of volts hides clipping
 */
export function clippedSine({ overdriveDb }: { overdriveDb: number }): ClippedSine {
  const excess = Math.expm1((overdriveDb * Math.LN10) / 20);
  const peak = 1 + excess;
  const t = Math.asin(1 / peak);
  const top = Math.PI / 2 - t;
  const ramp = peak * (t / 2 - Math.sin(2 * t) / 4);
  const fundamental = (4 / Math.PI) * (ramp + Math.cos(t));
  const meanSquare = (2 / Math.PI) * (peak * ramp + top);
  const harmonics =
    overdriveDb < lightDb ? cutHarmonics(peak, excess) : Math.max(0, meanSquare - (fundamental * fundamental) / 2);
  const average = (2 / Math.PI) * (peak * (1 - Math.cos(t)) + top);
  return {
    thdPct: (100 * Math.sqrt(2 * harmonics)) / fundamental,
    fundamental,
    rms: Math.sqrt(meanSquare),
    averageMeterRms: (average * Math.PI) / (2 * Math.SQRT2),
  };
}

/** Mean square of the harmonics in what the limit cuts off. */
function cutHarmonics(peak: number, excess: number): number {
  const a = 2 * Math.asin(Math.sqrt(excess / (2 * peak)));
  const cut = (x: number) => 2 * peak * Math.sin((a + x) / 2) * Math.sin((a - x) / 2);
  const square = (2 / Math.PI) * integral((x) => cut(x) ** 2, a);
  const fundamental = (4 / Math.PI) * integral((x) => cut(x) * Math.cos(x), a);
  return Math.max(0, square - (fundamental * fundamental) / 2);
}

export const clippedSineCalculation = calculation({
  name: 'clippedSine',
  about: 'distortion and meter readings of a clipped sine',
  inputs: { overdriveDb: number('dB', { min: 0, max: 200 }) },
  answer: (values) => success(clippedSine(values)),
});
