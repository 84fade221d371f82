import { expect, test } from 'vitest';
import { sweepImpulse } from '../../src/measurement/sweep-impulse.ts';
import { gridResponse, linearResponse, longView } from '../../src/measurement/sweep-response.ts';
import { type SweepShape, sweepConstantS } from '../../src/signals/sweep.ts';
import vectors from './deconvolution.json' with { type: 'json' };
import { recordingFile } from './recording-file.ts';

const TAIL_S = 0.25;

function shapeOf({ f1, f2, T, amp, fade_in_oct, fade_out_oct }: (typeof vectors.cases)[number]['sweep']): SweepShape {
  // The sweep is the synchronised one nearest to T.
  const cycles = Math.round((f1 * T) / Math.log(f2 / f1));
  const shape = { fromHz: f1, toHz: f2, durationS: (cycles / f1) * Math.log(f2 / f1), levelDbfs: 20 * Math.log10(amp) };
  const octaveS = sweepConstantS(shape) * Math.LN2;
  return { ...shape, fadeInS: octaveS * fade_in_oct, fadeOutS: octaveS * fade_out_oct };
}

test.each(vectors.cases)('response $id through known filters and reflections, $snr_db dB', (vector) => {
  const { fs, truth, tolerance } = vector;
  const impulse = sweepImpulse(
    recordingFile(vector.wav),
    0,
    shapeOf(vector.sweep),
    vector.sweep.starts_at_sample,
    fs,
    fs,
    TAIL_S,
  );
  const delayS = truth.delay_samples / fs;
  const response = linearResponse(impulse, longView(delayS, impulse), delayS);
  const grid = gridResponse(response, vector.f, 0, null);
  let worstDb = 0;
  let worstDeg = 0;
  vector.f.forEach((f, i) => {
    const levelDb = 20 * Math.log10(Math.hypot(grid.re[i], grid.im[i]));
    worstDb = Math.max(worstDb, Math.abs(levelDb - vector.mag_db[i]));
    // The grid's phase counts from the direct sound, the vector's from the start of the sweep.
    const phase = Math.atan2(grid.im[i], grid.re[i]) - 2 * Math.PI * f * delayS - vector.phase_rad[i];
    worstDeg = Math.max(worstDeg, Math.abs(Math.atan2(Math.sin(phase), Math.cos(phase)) * (180 / Math.PI)));
  });
  expect(worstDb).toBeLessThan(tolerance.mag_db);
  expect(worstDeg).toBeLessThan(tolerance.phase_deg);
});
