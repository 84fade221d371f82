import { expect, test } from 'vitest';
import { cleanCeiling } from '../../src/measurement/clean-ceiling.ts';
import { harmonicOrders } from '../../src/measurement/harmonics.ts';
import { noiseDensity } from '../../src/measurement/noise-density.ts';
import { sweepImpulse } from '../../src/measurement/sweep-impulse.ts';
import { type SweepShape, sweepConstantS, synchronisedDurationS } from '../../src/signals/sweep.ts';
import vectors from './distortion.json' with { type: 'json' };
import { recordingFile } from './recording-file.ts';

type SweepVector = (typeof vectors.sweeps)[number];

/** The level does not matter: every order is read re the fundamental. */
function shapeOf({ f1, f2, T, fade_in_oct, fade_out_oct }: SweepVector['sweep']): SweepShape {
  const shape = { fromHz: f1, toHz: f2, durationS: synchronisedDurationS(f1, f2, T), levelDbfs: 0 };
  const octaveS = sweepConstantS(shape) * Math.LN2;
  return { ...shape, fadeInS: octaveS * fade_in_oct, fadeOutS: octaveS * fade_out_oct };
}

/** Ten dB over its noise a value counts; under that it is an upper bound. */
const CLEAR_DB = 10;
const ABSENT_DB = -180;

test.each(vectors.sweeps)('harmonics $id at $snr_db dB: each within its tolerance, or an upper bound', (vector) => {
  const { fs, f_fundamental: fHz, tolerance_db: tolerance } = vector;
  const start = vector.sweep.starts_at_sample;
  const recording = recordingFile(vector.wav);
  const impulse = sweepImpulse(recording, 0, shapeOf(vector.sweep), start, fs, fs, 0.25);
  const noise = noiseDensity(recording, 0, [{ start: 0, length: start }], fs);
  const orders = harmonicOrders(impulse, 0, fHz, noise, 1 / 48);
  expect(orders.map(({ order }) => order)).toEqual([2, 3, 4, 5]);
  const wanted = [vector.h2_db, vector.h3_db, vector.h4_db, vector.h5_db];
  let judged = 0;
  fHz.forEach((_, i) => {
    let square = 0;
    orders.forEach(({ ratio, floor }, o) => {
      const gotDb = 20 * Math.log10(ratio[i] as number);
      const floorDb = 20 * Math.log10(floor[i] as number);
      const wantDb = wanted[o][i];
      square += 10 ** (gotDb / 10);
      const name = `order ${o + 2} at ${fHz[i]} Hz`;
      if (wantDb === ABSENT_DB) {
        expect(gotDb, name).toBeLessThan(-60);
      } else if (gotDb < floorDb + CLEAR_DB) {
        expect(Math.max(gotDb, floorDb) + 3, name).toBeGreaterThan(wantDb);
      } else {
        judged++;
        const within = wantDb > -45 ? tolerance.above_minus45 : tolerance.above_minus60;
        expect(Math.abs(gotDb - wantDb), name).toBeLessThan(within);
      }
    });
    expect(Math.abs(10 * Math.log10(square) - vector.thd_2to5_db[i])).toBeLessThan(tolerance.thd);
  });
  // What is there stands clear of the noise in all of these, so none of it may hide behind a bound.
  expect(judged).toBe(wanted.flat().filter((db) => db !== ABSENT_DB).length);
});

test.each(vectors.ceilings)('ceiling $id: $expect.thd_status', (vector) => {
  const { expect: wanted } = vector;
  const steps = vector.level_db.map((levelDb, i) => ({
    levelDb,
    thdDb: vector.thd_db[i],
    noiseThdDb: vector.noise_thd_db[i],
    compressionDb: vector.compression_db[i],
  }));
  const ceiling = cleanCeiling(steps, { thdDb: vector.limit_thd_db, compressionDb: vector.limit_compression_db });
  const near = (got: { status: string; levelDb: number | null } | null, want: number | null): void => {
    if (want === null) expect(got?.status).toBe('not-reached');
    else expect(Math.abs((got?.levelDb ?? Number.NaN) - want)).toBeLessThan(0.01);
  };
  expect(ceiling.thd?.status).toBe(wanted.thd_status.replace(' ', '-'));
  expect(ceiling.thd?.bracketDb).toEqual(wanted.bracket);
  near(ceiling.thd, wanted.thd_ceiling_db);
  near(ceiling.compression, wanted.compression_ceiling_db);
  near(ceiling, wanted.clean_ceiling_db);
});
