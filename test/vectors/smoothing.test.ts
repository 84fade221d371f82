import { expect, test } from 'vitest';
import { onLogGrid } from '../../src/signals/log-grid.ts';
import { positionPowerMeanDb, positionSpreadDb } from '../../src/signals/position-average.ts';
import { smoothedComplex, smoothedDbMean, smoothedLevelDb } from '../../src/signals/smoothing.ts';
import vectors from './smoothing.json' with { type: 'json' };

function worstDifference(got: ArrayLike<number>, want: number[]): number {
  expect(got.length).toBe(want.length);
  return Math.max(...want.map((value, i) => Math.abs(got[i] - value)));
}

test.each(vectors.smoothing)('smoothing $id: 1/$N octave at $ppo points per octave', (vector) => {
  const window = { pointsPerOctave: vector.ppo, widthOctaves: 1 / vector.N };
  expect(worstDifference(smoothedLevelDb(vector.in_db, window), vector.power_db)).toBeLessThan(1e-5);
  expect(worstDifference(smoothedDbMean(vector.in_db, window), vector.db_mean)).toBeLessThan(1e-5);
  const amplitude = vector.in_db.map((db) => 10 ** (db / 20));
  const { re, im } = smoothedComplex(
    {
      re: Float64Array.from(amplitude, (a, k) => a * Math.cos(vector.in_phase_rad[k])),
      im: Float64Array.from(amplitude, (a, k) => a * Math.sin(vector.in_phase_rad[k])),
    },
    window,
  );
  const levelDb = re.map((r, k) => 20 * Math.log10(Math.hypot(r, im[k])));
  const phase = re.map((r, k) => Math.atan2(im[k], r));
  expect(worstDifference(levelDb, vector.complex_db)).toBeLessThan(1e-5);
  expect(worstDifference(phase, vector.complex_phase_rad)).toBeLessThan(1e-5);
});

test.each(vectors.to_log)('bins onto a log grid $id: bins of $df Hz, $ppo points per octave', (vector) => {
  const power = new Float64Array(vector.bins);
  for (let k = 1; k < power.length; k++) {
    const f = k * vector.df;
    power[k] = Math.round((1 + 0.8 * Math.sin(f / 37) + 0.1 * Math.cos(0.9 * f)) * 1e6) / 1e6;
  }
  const gridHz = Float64Array.from({ length: vector.n }, (_, k) => vector.flo * 2 ** (k / vector.ppo));
  const got = onLogGrid(power, vector.df, gridHz, vector.ppo);
  expect(worstDifference(got, vector.out)).toBeLessThan(1e-7);
});

test.each(vectors.spatial)('power mean and spread over positions, case %#', (vector) => {
  expect(worstDifference(positionPowerMeanDb(vector.positions_db), vector.power_mean_db)).toBeLessThan(1e-5);
  expect(worstDifference(positionSpreadDb(vector.positions_db), vector.sd_db)).toBeLessThan(1e-5);
});
