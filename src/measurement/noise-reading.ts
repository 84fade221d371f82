// Band levels from the pink noise of a track: recorded over played power.
import { dbFromPower } from '../base/decibel.ts';
import { realFft } from '../signals/fft.ts';
import { isRenderableNoise, noisePeriods } from '../signals/noise-segment.ts';
import type { Recording } from '../signals/recording.ts';
import { resampled } from '../signals/resample.ts';
import type { NoiseSegment } from '../signals/track.ts';
import { thirdOctaves } from './grids.ts';
import { densityBetween, type NoiseDensity } from './noise-density.ts';
import type { BandLevels } from './reading.ts';
import type { TimedEvent } from './timeline.ts';

const SETTLE_S = 0.3;
const SHOWN_SNR = 10;

/** Mean power in each band of a spectrum of `size` samples, per sample squared. */
function bandPower(re: Float64Array, im: Float64Array, binHz: number, fHz: number): number {
  const ratio = 10 ** (1 / 20);
  const from = Math.max(1, Math.ceil(fHz / ratio / binHz));
  const to = Math.min(re.length - 1, Math.floor((fHz * ratio) / binHz));
  let sum = 0;
  for (let k = from; k <= to; k++) sum += re[k] ** 2 + im[k] ** 2;
  return sum;
}

/**
 * Third-octave levels of one noise segment.
 *
 * The noise repeats, so a whole number of its periods, brought back to the player's clock, has no random error at all.
 *
 * @param slope   recorded samples per track sample
 * @returns null where the description does not say how the noise was made, or not one period was recorded
 */
export function noiseReading(
  recording: Recording,
  channel: number,
  event: TimedEvent,
  slope: number,
  trackRateHz: number,
  noise: NoiseDensity | null,
  correctionDb: (fHz: number) => number,
): BandLevels | null {
  const segment = event.segment as NoiseSegment;
  if (!isRenderableNoise(segment)) return null;
  const period = segment.periodSamples as number;
  const settle = Math.round(SETTLE_S * trackRateHz);
  const heard = Math.min(event.end, recording.frames) - event.start;
  const periods = Math.min(8, Math.floor((heard / slope - settle - 0.05 * trackRateHz) / period));
  if (periods < 1) return null;
  const sides = noisePeriods(segment, trackRateHz);
  const played = realFft(segment.side === 'right' ? sides.right : sides.left);
  const binHz = trackRateHz / period;
  const fHz = thirdOctaves(
    (segment.fromHz ?? 20) * 1.06,
    Math.min(segment.toHz ?? 20_000, 0.45 * recording.rateHz) / 1.06,
  );
  const recorded = fHz.map(() => 0);
  for (let p = 0; p < periods; p++) {
    const first = event.start + (settle + p * period) * slope;
    const margin = Math.ceil(64 * Math.max(1, slope));
    const whole = Math.floor(first) - margin;
    const length = Math.ceil(period * slope) + 2 * margin + 1;
    const block = new Float64Array(length);
    recording.readChannel(channel, whole, length, block);
    const { re, im } = realFft(resampled(block, first - whole, slope, period));
    fHz.forEach((f, i) => {
      recorded[i] += bandPower(re, im, binHz, f) / periods;
    });
  }
  return {
    fHz,
    levelDb: fHz.map((f, i) => {
      const source = bandPower(played.re, played.im, binHz, f);
      const ratio = 10 ** (1 / 20);
      // Two-sided density to the sum of squared bins over one period.
      const floor = noise
        ? densityBetween(noise, f / ratio, f * ratio) * trackRateHz * period * ((f * (ratio - 1 / ratio)) / binHz)
        : 0;
      if (source <= 0 || recorded[i] < (1 + SHOWN_SNR) * floor) return null;
      return dbFromPower((recorded[i] - floor) / source) + correctionDb(f);
    }),
  };
}
