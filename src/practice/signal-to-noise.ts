// The noise level that gives a wanted ratio of signal to noise.
import { nominalBand, type SimulatedPlace } from './car.ts';
import type { RecorderSettings } from './recorder.ts';
import { filtered, highPass2, lowPass2 } from './sections.ts';

/** Where the first stimulus stands on the track, and the place that plays it. */
export interface StimulusOnTest {
  place: SimulatedPlace;
  startS: number;
  durationS: number;
}

function powerBetween(signal: Float64Array, from: number, to: number): number {
  let power = 0;
  const start = Math.max(0, from);
  const stop = Math.min(signal.length, to);
  for (let n = start; n < stop; n++) power += signal[n] * signal[n];
  return stop > start ? power / (stop - start) : 0;
}

/**
 * Level (dB, rms re full-scale square) to which `noise`, of rms 1, must be brought.
 *
 * @param clean,noise  the whole recording without and with nothing but noise, at recorder gain 0 dB
 * @returns the level at which mean power of the stimulus over mean power of the noise, both in the nominal band of the
 *   place on test, is `snrDb`
 */
export function noiseLevelForSnr(
  snrDb: number,
  clean: Float64Array,
  noise: Float64Array,
  where: { recorder: RecorderSettings; test: StimulusOnTest | null; stretch: number },
): number {
  const { recorder, test, stretch } = where;
  if (!test) return recorder.noise.levelDb;
  const { rateHz, startS } = recorder;
  const { lowHz, highHz } = nominalBand(test.place);
  const band = [
    highPass2(lowHz, Math.SQRT1_2, rateHz),
    lowPass2(Math.min(highHz, 0.45 * rateHz), Math.SQRT1_2, rateHz),
  ];
  const from = Math.round((startS + test.startS * stretch) * rateHz);
  const to = Math.round((startS + (test.startS + test.durationS) * stretch) * rateHz);
  const signalPower = powerBetween(filtered(band, clean), from, to);
  const noisePower = powerBetween(filtered(band, noise), 0, noise.length);
  return 10 * Math.log10(Math.max(signalPower, 1e-30) / Math.max(noisePower, 1e-30)) - snrDb;
}
