import { expect, test } from 'vitest';
import { bandPowers, octaveBands } from '../../src/signals/bands.ts';
import { classOneLimits } from '../../src/signals/class-one-limits.ts';
import { weightingDb } from '../../src/signals/weighting.ts';
import vectors from './bands.json' with { type: 'json' };

test.each(vectors.centres)('bands of 1/$b octave centred in $flo..$fhi Hz', (vector) => {
  const bands = octaveBands(vector.b, vector.flo, vector.fhi);
  expect(bands.map((band) => band.index)).toEqual(vector.bands.map((band) => band.x));
  bands.forEach((band, i) => {
    const want = vector.bands[i];
    expect(Math.abs(band.lowHz / want.lower - 1)).toBeLessThan(1e-9);
    expect(Math.abs(band.centreHz / want.centre - 1)).toBeLessThan(1e-9);
    expect(Math.abs(band.highHz / want.upper - 1)).toBeLessThan(1e-9);
  });
});

test.each(vectors.band_levels)('band levels $id: $psd.kind spectrum with tones, 1/$b octave', (vector) => {
  const { df, psd, b } = vector;
  const binPower = new Float64Array(vector.bins);
  const steepness = { white: 0, pink: 1, brown: 2 }[psd.kind] ?? Number.NaN;
  for (let k = 1; k < binPower.length; k++) binPower[k] = (psd.level / (k * df) ** steepness) * df;
  for (const tone of vector.tones) binPower[tone.bin] += tone.power;
  const first = vector.levels_db[0].centre;
  const last = vector.levels_db[vector.levels_db.length - 1].centre;
  const bands = octaveBands(b, first * 0.99, last * 1.01);
  expect(bands.map((band) => band.index)).toEqual(vector.levels_db.map((level) => level.x));
  const powers = bandPowers(binPower, df, bands);
  vector.levels_db.forEach((want, i) => {
    expect(Math.abs(10 * Math.log10(powers[i]) - want.db)).toBeLessThan(1e-4);
  });
});

test('weightings A and C at given frequencies', () => {
  vectors.weighting.f.forEach((f, i) => {
    expect(Math.abs(weightingDb('A', f) - vectors.weighting.a_db[i])).toBeLessThan(1e-3);
    expect(Math.abs(weightingDb('C', f) - vectors.weighting.c_db[i])).toBeLessThan(1e-3);
    expect(weightingDb('Z', f)).toBe(0);
  });
});

test.each(vectors.class1_mask_points)(
  'class-1 limits of 1/$b octave at ratio $omega_high and its inverse',
  (vector) => {
    // The file gives ten digits, so a point may lie a hair beyond its breakpoint, where the limits slope.
    for (const ratio of [vector.omega_high, vector.omega_low]) {
      const limits = classOneLimits(vector.b, ratio);
      expect(limits.leastDb).toBeCloseTo(vector.min_db, 5);
      if (vector.max_db === null) expect(limits.mostDb).toBeNull();
      else expect(limits.mostDb).toBeCloseTo(vector.max_db, 5);
    }
  },
);

test('class-1 limits jump at the band edge', () => {
  const { inside_max_db, at_and_outside_min_db } = vectors.class1_edge;
  for (const fraction of [1, 3, 12]) {
    const edge = 10 ** (0.3 / (2 * fraction));
    for (const [inside, at, outside] of [
      [edge * (1 - 1e-9), edge, edge * (1 + 1e-9)],
      [(1 + 1e-9) / edge, 1 / edge, (1 - 1e-9) / edge],
    ]) {
      expect(classOneLimits(fraction, inside).leastDb).toBe(-0.4);
      expect(classOneLimits(fraction, inside).mostDb).toBeCloseTo(inside_max_db, 5);
      for (const ratio of [at, outside]) {
        expect(classOneLimits(fraction, ratio).leastDb).toBeCloseTo(at_and_outside_min_db, 5);
        expect(classOneLimits(fraction, ratio).mostDb).toBeNull();
      }
    }
  }
});
