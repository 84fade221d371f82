// A loose part: it answers each strong swing near its own frequency with a short burst of treble.
import { uniform } from '../base/random.ts';
import type { Rattle } from './car.ts';
import { seedFor, whiteNoise } from './chance.ts';
import { bandPass2, filtered, highPass2, lowPass2 } from './sections.ts';

const BURST_S = 0.004;

/**
 * Sound of a rattle at the microphone, re recorded full scale.
 *
 * Whenever the drive, narrowed to the part's resonance, swings above the threshold, the part hits its stop: a burst of
 * noise between 1.5 and 7 kHz that fades within milliseconds, never twice the same, late by up to a tenth of a period.
 *
 * @param drive   what the place plays, played full scale = 1, volume knob included
 * @param rateHz  rate of `drive`
 */
export function rattleSound(rattle: Rattle, drive: Float64Array, rateHz: number, seed: number): Float64Array {
  const moved = filtered([bandPass2(rattle.fHz, rattle.q, rateHz)], drive);
  const threshold = 10 ** (rattle.fromDbfs / 20);
  const noise = filtered(
    [highPass2(1500, Math.SQRT1_2, rateHz), lowPass2(Math.min(7000, 0.4 * rateHz), Math.SQRT1_2, rateHz)],
    whiteNoise(seedFor(seed, 'burst'), drive.length),
  );
  const out = new Float64Array(drive.length);
  const length = Math.round(6 * BURST_S * rateHz);
  const rest = 0.7 / rattle.fHz;
  let lastHit = Number.NEGATIVE_INFINITY;
  let hits = 0;
  for (let n = 1; n < moved.length; n++) {
    if (moved[n] < threshold || moved[n - 1] >= threshold || n - lastHit < rest * rateHz) continue;
    lastHit = n;
    hits++;
    const late = Math.round((0.1 * rateHz * uniform(seed, 2 * hits)) / rattle.fHz);
    const level = 10 ** (rattle.levelDb / 20) * (0.6 + 0.8 * uniform(seed, 2 * hits + 1));
    for (let k = 0; k < length && n + late + k < out.length; k++) {
      out[n + late + k] += level * Math.exp(-k / (BURST_S * rateHz)) * noise[n + late + k];
    }
  }
  return out;
}
